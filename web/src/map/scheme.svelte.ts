// Whether the page is dark: what the reader chose, or else what the system wishes. Follows both.
export class Scheme {
  isDark = $state(false);

  constructor() {
    const wish = matchMedia("(prefers-color-scheme: dark)");
    const root = document.documentElement;
    const read = () => (this.isDark = root.dataset.scheme ? root.dataset.scheme === "dark" : wish.matches);
    read();
    wish.addEventListener("change", read);
    const watch = new MutationObserver(read);
    watch.observe(root, { attributes: true, attributeFilter: ["data-scheme"] });
    this.stop = () => (wish.removeEventListener("change", read), watch.disconnect());
  }

  readonly stop: () => void;
}
