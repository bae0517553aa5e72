// Reads iCalendar files with two parsers, each of its own making, and prints what each found in each as JSON.
// node read_calendar.mjs FOLDER_OF_PACKAGES FILE...
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

const [folder, ...files] = process.argv.slice(2);
const require = createRequire(`${folder}/package.json`);

const pad = (number) => String(number).padStart(2, "0");
const asDay = (date) => `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}`;
const asMoment = (date) => date.toISOString().slice(0, 19) + "Z";

async function first(text) {
  const module = await import(require.resolve("ical.js"));
  const ICAL = module.default ?? module;
  const root = new ICAL.Component(ICAL.parse(text));
  return root.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component);
    const told = (time) => time && (time.isDate ? time.toString() : asMoment(time.toJSDate()));
    return {
      uid: event.uid,
      start: told(event.startDate),
      end: component.hasProperty("dtend") ? told(event.endDate) : null,
      summary: event.summary,
      location: event.location ?? "",
      status: component.getFirstPropertyValue("status"),
    };
  });
}

function second(text) {
  const ical = require("node-ical");
  const events = Object.values(ical.sync.parseICS(text)).filter((one) => one.type === "VEVENT");
  const said = (value) => (value && typeof value === "object" && "val" in value ? value.val : value);
  return events.map((event) => {
    const told = (date) => date && (event.datetype === "date" ? asDay(date) : asMoment(date));
    return {
      uid: event.uid,
      start: told(event.start),
      end: event.rawEnd === null || !text.includes("DTEND") ? null : told(event.end),
      summary: said(event.summary),
      location: said(event.location) ?? "",
      status: event.status,
    };
  });
}

const found = [];
for (const file of files) {
  const text = readFileSync(file, "utf8");
  found.push({ "ical.js": await first(text), "node-ical": second(text) });
}
console.log(JSON.stringify(found));
