// The text of the site file, to edit as it stands.

const editor = {
  hear(answer, how) {
    const area = byId("text");
    if ((area === document.activeElement || editor.typed.now) && !how.undoing) return;
    if (area.value !== site.text) area.value = site.text;
  },

  typed: settle(200, () => site.read(byId("text").value, { of: "text" })),

  show(text) {
    byId("text-panel").hidden = !text;
    byId("form-panel").hidden = text;
    byId("as-form").setAttribute("aria-pressed", String(!text));
    byId("as-text").setAttribute("aria-pressed", String(text));
    if (text) byId("text").value = site.text;
  },

  goTo(line) {
    const area = byId("text");
    const lines = area.value.split("\n");
    const from = lines.slice(0, line - 1).reduce((sum, l) => sum + l.length + 1, 0);
    area.focus();
    area.setSelectionRange(from, from + (lines[line - 1] || "").length);
    area.scrollTop = (line - 4) * parseFloat(getComputedStyle(area).lineHeight);
  },
};
