// Which browsers the tests use, where they lie on this machine, and what Debian calls them.
// Run by itself it prints one line for each: its name and `found`, or what is missing, and the
// packages that bring it.
import { accessSync, constants, existsSync, readdirSync } from "node:fs";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";

/** Looks for a program on the PATH, or at a full path; gives its full path or undefined. */
function program(...names) {
  const folders = (process.env.PATH ?? "").split(delimiter);
  const places = names.flatMap((name) =>
    /[\\/]/.test(name) ? [name] : folders.map((folder) => join(folder, name)),
  );
  return places.find((place) => {
    try {
      accessSync(place, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

/** WebKit's test browser hides in a folder named after the processor. */
function miniBrowser() {
  const folders = existsSync("/usr/lib") ? readdirSync("/usr/lib") : [];
  return program(
    "MiniBrowser",
    ...folders.map((folder) => `/usr/lib/${folder}/webkit2gtk-4.1/MiniBrowser`),
  );
}

const CHROMIUM = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];
const FIREFOX = [
  "firefox-esr",
  "firefox",
  "/Applications/Firefox.app/Contents/MacOS/firefox",
  "C:\\Program Files\\Mozilla Firefox\\firefox.exe",
];

/** The engines: `parts` are full paths, and `missing` says in words what is not there, if any. */
export const engines = [
  { name: "chromium", packages: ["chromium"], parts: { browser: program(...CHROMIUM) } },
  { name: "firefox", packages: ["firefox-esr"], parts: { browser: program(...FIREFOX) } },
  {
    name: "webkit",
    packages: ["webkit2gtk-driver", "xvfb", "xauth"],
    parts: {
      driver: program("WebKitWebDriver"),
      browser: miniBrowser(),
      screen: program("xvfb-run"),
    },
  },
].map((engine) => {
  const absent = Object.keys(engine.parts).filter((part) => !engine.parts[part]);
  const missing = absent.length > 0 && `not found on this machine: its ${absent.join(", ")}`;
  return { ...engine, missing };
});

/** One engine by name. */
export function engine(name) {
  return engines.find((each) => each.name === name);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  for (const { name, packages, missing } of engines) {
    console.log([name, missing || "found", packages.join(" ")].join("\t"));
  }
}
