// Light or dark: follows the device until the person chooses, and then remembers the choice on this device.

const KEY = "tankround.theme";
const root = document.documentElement;

/** @returns {"light" | "dark"} what is shown now */
function shown() {
    const chosen = root.dataset.theme;
    if (chosen === "light" || chosen === "dark") {
        return chosen;
    }
    return window.matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}

/** @returns {string | null} the remembered choice; null where storage is refused */
function remembered() {
    try {
        return window.localStorage.getItem(KEY);
    } catch {
        return null;
    }
}

/** @param {"light" | "dark"} theme */
function show(theme) {
    root.dataset.theme = theme;
    try {
        window.localStorage.setItem(KEY, theme);
    } catch {
        // A device that stores nothing still switches for this page.
    }
}

const choice = remembered();
if (choice === "light" || choice === "dark") {
    root.dataset.theme = choice;
}

for (const button of document.querySelectorAll("button[data-theme-switch]")) {
    button.removeAttribute("hidden");
    button.addEventListener("click", () => show(shown() === "dark" ? "light" : "dark"));
}
