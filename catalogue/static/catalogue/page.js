/* What a page does beyond HTML; every page works without it.
   Single keys, a guard against sending a form twice, and a warning before typed text is left behind. */
(() => {
  "use strict";

  const SWITCH = "ledgerline-single-keys";

  const keysAreOn = () => {
    try {
      return localStorage.getItem(SWITCH) !== "off";
    } catch {
      return true;
    }
  };

  const isTyping = (target) => target instanceof Element && target.closest("input, textarea, select, [contenteditable]");

  const press = (event) => {
    if (event.defaultPrevented || event.repeat || event.isComposing) return;
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (isTyping(event.target) || !keysAreOn()) return;
    const found = [...document.querySelectorAll("[data-key]")].find((each) => each.dataset.key === event.key);
    if (!found) return;
    event.preventDefault();
    if (found.matches("input")) found.focus();
    else found.click();
  };

  const offerSwitch = () => {
    const button = document.querySelector("[data-keys-switch]");
    const state = document.querySelector("[data-keys-state]");
    if (!button || !state) return;
    const show = () => {
      state.textContent = keysAreOn() ? state.dataset.on : state.dataset.off;
    };
    button.addEventListener("click", () => {
      try {
        localStorage.setItem(SWITCH, keysAreOn() ? "off" : "on");
      } catch {
        /* a browser that keeps nothing leaves them on */
      }
      show();
    });
    button.hidden = state.hidden = false;
    show();
  };

  const contents = (form) => new URLSearchParams([...new FormData(form)].filter(([, value]) => typeof value === "string")).toString();

  const guard = (form) => {
    const opened = contents(form);
    let sent = false;
    form.addEventListener("submit", (event) => {
      if (sent) {
        event.preventDefault();
        return;
      }
      sent = true;
      for (const button of form.querySelectorAll("[type=submit]")) button.setAttribute("aria-disabled", "true");
    });
    window.addEventListener("pageshow", () => {
      sent = false;
      for (const button of form.querySelectorAll("[aria-disabled]")) button.removeAttribute("aria-disabled");
    });
    if (form.hasAttribute("data-keep"))
      window.addEventListener("beforeunload", (event) => {
        if (!sent && (form.dataset.keep === "changed" || contents(form) !== opened)) event.preventDefault();
      });
  };

  /* by which clock pages tell moments to whoever is signed in; nothing is left with others */
  const tellClock = () => {
    const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
    if (!timeZone || !("toldByClock" in document.body.dataset)) return;
    const [name, secure] = location.protocol === "https:" ? ["__Host-clock", "; Secure"] : ["clock", ""];
    document.cookie = `${name}=${encodeURIComponent(timeZone)}; Path=/; SameSite=Lax; Max-Age=31536000${secure}`;
  };

  document.addEventListener("keydown", press);
  tellClock();
  offerSwitch();
  /* a form that is answered by a file leaves its page open: it may be sent again */
  document.querySelectorAll("form[method=post]:not([data-answers-file])").forEach(guard);
  /* an address that is shown to be handed over is taken whole */
  for (const each of document.querySelectorAll("input.code[readonly]")) each.addEventListener("focus", () => each.select());
})();
