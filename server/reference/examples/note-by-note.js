import { analyse, chartText, describeProblem, formChart, Problem } from "ledgerline";

const list = document.querySelector("ol");
const chart = chartText(formChart("blues-quick-change", "F"));

document.querySelector("input").addEventListener("change", async (event) => {
  const [file] = event.target.files;
  list.replaceChildren(...sentences(new Uint8Array(await file.arrayBuffer()), file.name).map(line));
});

function sentences(bytes, name) {
  try {
    return analyse(bytes, chart, { name })
      .notes.filter((note) => note.solo)
      .map((note) => note.account);
  } catch (error) {
    if (error instanceof Problem) return [describeProblem(error)];
    throw error;
  }
}

function line(text) {
  const item = document.createElement("li");
  item.textContent = text;
  return item;
}
