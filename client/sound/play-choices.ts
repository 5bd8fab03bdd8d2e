/** With what a take is played and how fast: the choices below the player. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { Backing } from "./backing.ts";
import type { Playing } from "./events.ts";

export function playChoices(index: AccountIndex): { readonly element: HTMLElement; read(): Playing } {
  const box = (label: string, checked = false) => {
    const input = h("input", { type: "checkbox", checked });
    return { input, label: h("label", { class: "choice" }, input, ` ${label}`) };
  };
  const hasOther = index.other.length > 0;
  const other = box("recorded other hand", hasOther);
  const steady = index.analysis.alignment.method !== "rubato";
  const backing: readonly (readonly [Backing, ReturnType<typeof box>])[] = [
    ["click", box("click")],
    ["bass", box("walking bass")],
    ["shells", box("shells")],
  ];
  const even = box("straightened: every note on its beat, eighths even");
  const counted = box("counted in");
  const loop = box("again and again");
  const speed = h(
    "select",
    {},
    ...[100, 90, 80, 70, 60, 50, 40].map((percent) => h("option", { value: percent }, `${percent} %`)),
  );
  return {
    element: h(
      "div",
      { class: "play-choices" },
      hasOther ? other.label : null,
      ...backing.map(([name, { label }]) => (name === "click" && !steady ? null : label)),
      steady ? even.label : null,
      steady ? counted.label : null,
      loop.label,
      h("label", {}, "Speed ", speed),
    ),
    read: () => ({
      backing: new Set(backing.flatMap(([name, { input }]) => (input.checked ? [name] : []))),
      otherHand: hasOther && other.input.checked,
      speed: Number(speed.value) / 100,
      loop: loop.input.checked,
      timing: even.input.checked ? "even" : "played",
      countIn: counted.input.checked,
    }),
  };
}
