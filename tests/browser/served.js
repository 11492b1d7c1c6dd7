// A server of the built program over a workspace of its own, and a browser to look at it with.

import { execFileSync, spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { networkInterfaces, tmpdir } from "node:os";
import path from "node:path";
import readline from "node:readline";
import axe from "axe-core";
import jsqr from "jsqr";
import { chromium } from "playwright-core";

const ROOT = path.resolve(import.meta.dirname, "../..");
const PROGRAM = path.join(process.env.CARGO_TARGET_DIR ?? path.join(ROOT, "target"), "release", "sparewright");
export const DEMO = path.join(ROOT, "data/demo");
// Small shops as strangers hand them over.
export const STRANGERS = ["bakery_german", "bottling_two_languages", "gravel_lists_only", "sawmill_inch"].map((name) => [name, path.join(ROOT, "tests/shops", name)]);
// Pictures of every page: artefacts of the test, for people to look at.
const PICTURES = path.join(import.meta.dirname, "pictures");

// Rules of WCAG 2.2 up to level AA, and the best practices of the library.
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"];
export const PHONE = { width: 360, height: 780 };
export const NARROWEST = { width: 320, height: 640 };
export const DESK = { width: 1280, height: 900 };

/** Starts a server; `folder` is imported first. */
export async function serve({ folder = null, ip = "127.0.0.1" } = {}) {
  const workspace = mkdtempSync(path.join(tmpdir(), "sparewright-browser-"));
  if (folder) execFileSync(PROGRAM, ["import", folder, "--workspace", workspace], { stdio: "ignore" });
  const child = spawn(PROGRAM, ["serve", "--listen", `${ip}:0`, "--workspace", workspace], { stdio: ["ignore", "pipe", "ignore"] });
  const printed = [], codes = [];
  for await (const line of readline.createInterface({ input: child.stdout })) {
    // A code stands below its address, drawn in half blocks.
    if (/^[ \u2580\u2584\u2588]+$/.test(line)) (codes[printed.length - 1] ??= []).push(line);
    printed.push(...line.split(/\s+/).filter((word) => word.startsWith("http://")));
    if (line.includes("Ctrl-C stops")) break;
  }
  return {
    workspace,
    printed,
    codes,
    address: new URL(printed[0]).origin,
    stop() {
      child.kill();
      rmSync(workspace, { recursive: true, force: true });
    },
  };
}

/** What a code of half blocks says to a camera before a dark terminal; `null` where it cannot be read. */
export function scanned(lines) {
  const SIDE = 4; // pixels a module
  const wide = Math.max(...lines.map((line) => [...line].length));
  const [width, height] = [wide * SIDE, lines.length * 2 * SIDE];
  const pixels = new Uint8ClampedArray(width * height * 4);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const module = Math.floor(y / SIDE), sign = [...lines[Math.floor(module / 2)]][Math.floor(x / SIDE)] ?? " ";
      // A block is lit: the ink of a terminal is light.
      const lit = sign === "\u2588" || sign === (module % 2 ? "\u2584" : "\u2580");
      pixels.fill(lit ? 255 : 0, (y * width + x) * 4, (y * width + x) * 4 + 3);
      pixels[(y * width + x) * 4 + 3] = 255;
    }
  }
  return (jsqr.default ?? jsqr)(pixels, width, height, { inversionAttempts: "dontInvert" })?.data ?? null;
}

/** Reports of the demo in a folder of their own; `remove` takes it away. */
export function report(language) {
  const folder = mkdtempSync(path.join(tmpdir(), "sparewright-report-"));
  execFileSync(PROGRAM, ["run", DEMO, "--out", folder, "--language", language, "--quiet"], { stdio: "ignore" });
  return {
    folder,
    page: (name) => "file://" + path.join(folder, name),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** Pages of a PDF. */
export function pagesOf(bytes) {
  return (bytes.toString("latin1").match(/\/Type\s*\/Page(?![a-zA-Z])/g) ?? []).length;
}

/** The browser of the distribution, with a folder of its own. */
export function browser() {
  const known = ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find((file) => existsSync(file));
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? known,
    headless: true,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
      "--disable-component-update", "--disable-sync"],
  });
}

/** A page that reports what its console and its content security policy complain of. */
export async function open(running, { size = PHONE, scheme = "light", scripts = true, locale = "en-GB" } = {}) {
  const context = await running.newContext({
    viewport: size,
    colorScheme: scheme,
    locale,
    hasTouch: size === PHONE,
    isMobile: size === PHONE,
    javaScriptEnabled: scripts,
    acceptDownloads: true,
  });
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  page.complaints = [];
  page.on("console", (message) => { if (message.type() === "error") page.complaints.push(message.text()); });
  page.on("pageerror", (error) => page.complaints.push(String(error)));
  return page;
}

export async function picture(page, name) {
  mkdirSync(PICTURES, { recursive: true });
  await page.screenshot({ path: path.join(PICTURES, `${name}.png`), fullPage: true });
}

/** What the accessibility library finds, one line a finding. */
export async function barriers(page) {
  await page.evaluate(axe.source);
  const found = await page.evaluate((tags) => globalThis.axe.run(document, { runOnly: { type: "tag", values: tags } }), RULES);
  return found.violations.flatMap((of) => of.nodes.map((node) => `${of.id}: ${node.target} ${node.failureSummary}`));
}

/** Keeps the first rows of each table: rows of a table are alike, and the accessibility library looks at each element. */
export const fewRows = (page) => page.evaluate(() => { for (const row of document.querySelectorAll("tbody tr:nth-child(n+9)")) row.remove(); });

/** How far the page can be moved sideways, in pixels. */
export const sideways = (page) => page.evaluate(() => document.scrollingElement.scrollWidth - document.documentElement.clientWidth);

/** What is to be touched and lower than 48 pixels. */
export const smallTargets = (page) => page.evaluate(() =>
  [...document.querySelectorAll("a:not(.skip), button, select, textarea, summary, .tick, .print-choice, input:not([type=hidden]):not([type=checkbox]):not([type=file])")]
    .filter((target) => target.checkVisibility() && target.getBoundingClientRect().height < 47.5)
    .map((target) => `${target.outerHTML.slice(0, 80)}: ${target.getBoundingClientRect().height}`));

/** An address of this machine that others can reach; `null` where it has none. */
export function ownAddress() {
  const all = Object.values(networkInterfaces()).flat();
  return all.find((of) => of.family === "IPv4" && !of.internal)?.address ?? null;
}
