// Opens pages as a browser does and looks at what nobody sees in a text: is the HTML valid, can it be read by everybody
// (axe-core), does anything go wrong or leave the page, does a hazard stay on the sheet of paper with its step.
// `node check.mjs FOLDER` checks each page in the folder; a page that is a working copy is named `sheet-`.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { FileSystemConfigLoader, HtmlValidate } from "html-validate";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const widths = [390, 1000];
const problems = [];

async function validate(file) {
    // What it thinks of style (self-closing shapes, long lines) is not asked for.
    const config = { extends: ["html-validate:standard", "html-validate:a11y"], root: true };
    const validator = new HtmlValidate(new FileSystemConfigLoader(config));
    const report = await validator.validateFile(file);
    for (const result of report.results) {
        for (const found of result.messages) {
            problems.push(`${file}:${found.line}: ${found.ruleId}: ${found.message}`);
        }
    }
}

async function open(browser, file) {
    const page = await browser.newPage();
    const own = pathToFileURL(file).href;
    page.on("console", message => problems.push(`${file}: console: ${message.text()}`));
    page.on("pageerror", error => problems.push(`${file}: ${error}`));
    page.on("request", request => {
        if (request.url() !== own) problems.push(`${file}: asks for ${request.url()}`);
    });
    await page.goto(own);
    for (const width of widths) {
        await page.setViewportSize({ width, height: 900 });
        await page.evaluate(axe);
        const found = await page.evaluate(rules => axe.run({ runOnly: rules }), rules);
        for (const violation of found.violations) {
            problems.push(`${file} at ${width}: ${violation.id}: ${violation.help}: ${violation.nodes[0].html}`);
        }
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        if (wide > 0) problems.push(`${file} at ${width}: ${wide} pixels too wide`);
    }
    return page;
}

const squeezed = text => text.replace(/\s+/g, "");

// The hazard and the step that it is kept with, as they come out on paper.
async function print(page, file, format) {
    const pdf = join(mkdtempSync(join(tmpdir(), "pages-")), "page.pdf");
    writeFileSync(pdf, await page.pdf({ format }));
    const sheets = execFileSync("pdftotext", [pdf, "-"], { encoding: "utf8" }).split("\f").map(squeezed);
    const kept = await page.$$eval(".keep:has(.hazard)", all => all.map(one => ({
        hazard: one.querySelector(".hazard").textContent,
        step: one.querySelector(".ticks li").textContent,
    })));
    for (const { hazard, step } of kept) {
        const both = sheets.some(sheet => sheet.includes(squeezed(hazard)) && sheet.includes(squeezed(step)));
        if (!both) problems.push(`${file} on ${format}: parted from its step: ${hazard}`);
    }
    return `${sheets.length - 1} sheets of ${format}, ${kept.length} hazards with their steps`;
}

const folder = resolve(process.argv[2]);
const files = readdirSync(folder).filter(name => name.endsWith(".html")).sort();
if (files.length === 0) problems.push(`no page in ${folder}`);
const browser = await chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
for (const name of files) {
    const file = join(folder, name);
    await validate(file);
    const page = await open(browser, file);
    const printed = [await print(page, name, "A4"), await print(page, name, "Letter")];
    if (name.startsWith("sheet-") && printed.some(words => words.includes(" 0 hazards"))) problems.push(`${name}: no hazard`);
    console.log(`${name}: ${printed.join("; ")}`);
}
await browser.close();
problems.forEach(problem => console.error(problem));
process.exit(problems.length === 0 ? 0 : 1);
