// The page side of one dimension control. It knows positions on a grid and the texts Python wrote
// for them; sizes, units and fractions are read and written in Python only.

// JupyterLab's shortcuts are kept off twice: keys are stopped on their way up, and where JupyterLab
// is set to listen first, the mark counts. It must stand on the very element that has the focus.
const PARTS = `
  <label class="furn-name"></label>
  <input class="furn-range" type="range" min="0" step="1" data-lm-suppress-shortcuts="true">
  <span class="furn-typed">
    <input class="furn-box" type="text" autocomplete="off" spellcheck="false"
      data-lm-suppress-shortcuts="true">
    <span class="furn-unit"></span>
  </span>
  <div class="furn-message" role="status" aria-live="polite"></div>`;

function render({ model, el }) {
  const root = document.createElement("div");
  root.className = "furn-control";
  root.setAttribute("role", "group");
  root.innerHTML = PARTS;
  const [label, range, box, unit, message] = ["name", "range", "box", "unit", "message"].map((part) =>
    root.querySelector(`.furn-${part}`),
  );
  const [last, leap] = [model.get("labels").length - 1, model.get("leap")];
  const id = `furn-${Math.random().toString(36).slice(2)}`; // a view may stand on the page twice
  label.id = `${id}-name`;
  label.textContent = model.get("name");
  unit.textContent = model.get("unit");
  range.id = label.htmlFor = `${id}-range`;
  unit.id = `${id}-unit`;
  message.id = `${id}-message`;
  root.setAttribute("aria-labelledby", label.id);
  range.setAttribute("aria-labelledby", label.id);
  range.max = last;
  box.setAttribute("aria-label", `${model.get("name")}, typed`);
  box.setAttribute("aria-describedby", `${unit.id} ${message.id}`);

  const waiting = () => model.get("answered") < model.get("asked")[0];
  let owed = 0; // steps pressed while a typed text was still being read
  const ask = (position, text) => {
    owed = 0;
    const number = Math.max(model.get("asked")[0], model.get("answered")) + 1;
    model.set("asked", [number, position, text]);
    model.save_changes();
  };

  let lastShown; // what was last put into the box or read from it: anything else is new typing
  const fill = (shown) => {
    const [typing, all] = [box.value !== lastShown, box.selectionEnd - box.selectionStart === box.value.length];
    lastShown = shown;
    if (box.matches(":focus") && typing) return; // an answer that comes late wipes out no typing
    box.value = shown;
    if (box.matches(":focus") && all) box.select();
  };
  const show = ({ position, shown, said, message: sentence, invalid }) => {
    range.value = position;
    if (shown !== lastShown) fill(shown);
    range.setAttribute("aria-valuetext", said);
    message.textContent = sentence;
    box.setAttribute("aria-invalid", invalid);
  };

  const draw = () => {
    const [, position, text] = model.get("asked");
    if (!waiting()) {
      const keys = ["position", "shown", "said", "message", "invalid"];
      show(Object.fromEntries(keys.map((key) => [key, model.get(key)])));
      if (owed) step(owed);
    } else if (text === null) {
      // Shown before Python has heard of it: the spoken size must not lag behind the key.
      const [shown, said] = [model.get("labels")[position], model.get("spoken")[position]];
      show({ position, shown, said, message: "", invalid: false });
    }
  };

  const step = (by) => {
    const [, wished, text] = model.get("asked");
    if (waiting() && text !== null) {
      owed += by;
      return;
    }
    // From between two positions the thumb's own may be the next one in that direction.
    const side = model.get("side");
    const at = waiting() ? wished : model.get("position") + (side * by < 0 ? side : 0);
    ask(Math.min(Math.max(at + by, 0), last), null);
  };
  // Returns whether the box held something new to read.
  const read = () => {
    if (box.value === lastShown) return false;
    lastShown = box.value;
    ask(null, box.value);
    return true;
  };

  range.addEventListener("input", () => ask(range.valueAsNumber, null));
  // Taking the offered grid value by a click where the thumb stands already gives no input event.
  range.addEventListener("click", () => {
    if (!waiting() && model.get("side") !== 0) ask(range.valueAsNumber, null);
  });
  box.addEventListener("change", read);
  root.addEventListener("keydown", (event) => {
    event.stopPropagation();
    const inBox = event.target === box;
    if (inBox && event.key === "Enter") read();
    const keys = { ArrowUp: 1, ArrowDown: -1, PageUp: leap, PageDown: -leap };
    if (!inBox) Object.assign(keys, { ArrowRight: 1, ArrowLeft: -1, Home: -last, End: last });
    const by = keys[event.key];
    if (!by || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    if (!(inBox && read())) step(by); // what was typed is read first, never stepped over
  });

  model.on("change", draw);
  draw();
  el.append(root);
}

export default { render };
