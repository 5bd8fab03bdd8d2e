/**
 * Fields that are being filled in outlive a reload and the way back, until what they are for is done. They are gone
 * with the window, since a tablet is shared.
 */

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

export interface KeptFields {
  /** What was filled in is done with. */
  clear(): void;
}

/**
 * Puts back what was filled in before, as if it were typed, and keeps what is changed from now on. Only fields that
 * somebody changed are kept; files are not, since no page may put one back.
 *
 * @param host around the fields, which are told apart by name and, where it has a choice, by value
 * @param key one for each thing that is filled in
 */
export function keepFields(host: HTMLElement, key: string): KeptFields {
  const place = `ledgerline-fields ${key}`;
  let written = read(place);
  for (const field of host.querySelectorAll<Field>("input, select, textarea")) {
    const value = written[field.name];
    if (value === undefined) continue;
    if (isChoice(field)) field.checked = field.value === value;
    else field.value = value;
    if (isChoice(field) && !field.checked) continue;
    for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
  }
  const keep = ({ target }: Event) => {
    const field = target as Field;
    if (field.name === "" || field.type === "file" || field.type === "checkbox") return;
    written = { ...written, [field.name]: field.value };
    try {
      sessionStorage.setItem(place, JSON.stringify(written));
    } catch {
      // A browser without a store, or without room: the fields stand until the page is left.
    }
  };
  host.addEventListener("input", keep);
  host.addEventListener("change", keep);
  return {
    clear() {
      written = {};
      sessionStorage.removeItem(place);
    },
  };
}

const isChoice = (field: Field): field is HTMLInputElement => field.type === "radio";

function read(place: string): Readonly<Record<string, string>> {
  try {
    return JSON.parse(sessionStorage.getItem(place) ?? "{}") as Record<string, string>;
  } catch {
    return {};
  }
}
