// SPDX-License-Identifier: GPL-3.0-or-later
// tests/browser/report.js - pages as a browser sees them: narrow and wide, light and dark, without
// scripts, printed. Rules of access are those of axe-core (WCAG 2.1); HTML is judged by html-validate.
//
//     node report.js CHROMIUM REPORT.html HANDOVER.html
'use strict';
const fs = require('fs');
const puppeteer = require('puppeteer-core');
const axe = require.resolve('axe-core');
const [chromium, report, handover] = process.argv.slice(2);
const MM = 96 / 25.4;
const PAPER = { A4: [210, 297], Letter: [215.9, 279.4] };
let failed = 0;

function judge(sentence, good, more) {
    failed += !good;
    console.log((good ? 'ok - ' : 'not ok - ') + sentence + (good || !more ? '' : ': ' + more));
}

async function open(browser, file, width, scheme, scripts) {
    const page = await browser.newPage();
    await page.setJavaScriptEnabled(scripts !== false);
    await page.setViewport({ width, height: 800 });
    await page.emulateMediaFeatures([{ name: 'prefers-color-scheme', value: scheme }]);
    page.asked = [];
    page.on('request', (request) => page.asked.push(request.url()));
    await page.goto('file://' + file);
    return page;
}

async function access(browser, file, what, width, scheme) {
    const page = await open(browser, file, width, scheme);
    await page.addScriptTag({ path: axe });
    const found = await page.evaluate(() => axe.run().then((result) => result.violations.map(
        (v) => v.id + ' at ' + v.nodes[0].html.slice(0, 120))));
    judge(`${what}, ${width} px, ${scheme}: nothing that bars anybody`, found.length === 0,
        found.join('; '));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    judge(`${what}, ${width} px: no scrolling sideways`, wide <= width, wide + ' px');
    judge(`${what}: no request but for the page itself`, page.asked.length === 1, page.asked.join(' '));
    await page.close();
}

async function days(browser) {
    const shown = () => Array.from(document.querySelectorAll('#days figure'))
        .filter((figure) => figure.getClientRects().length > 0).map((figure) => figure.dataset.day);
    let page = await open(browser, report, 900, 'light');
    judge('one day is shown', (await page.evaluate(shown)).length === 1);
    await page.focus('#day');
    const before = await page.evaluate(shown);
    await page.keyboard.press('ArrowRight');
    const after = await page.evaluate(shown);
    judge('a key moves to the next day', after.length === 1 && after[0] !== before[0]);
    judge('what is read aloud is that day',
        await page.$eval('#day', (range) => range.getAttribute('aria-valuetext')) === after[0]);
    await page.close();
    page = await open(browser, report, 900, 'light', false);
    const figures = await page.$$eval('#days figure', (all) => all.map((f) => f.getClientRects().length));
    judge('without scripts all days stand there', figures.length > 2 && figures.every((n) => n > 0));
    judge('and no slider', await page.$('#day') === null);
    await page.close();
}

// Letters of a picture as they come out on a phone.
async function letters(browser) {
    const page = await open(browser, report, 360, 'light');
    const least = await page.evaluate(() => Math.min(...Array.from(
        document.querySelectorAll('figure svg text')).filter((text) => text.textContent.trim() &&
        text.getClientRects().length).map((text) => {
        const svg = text.ownerSVGElement;
        return parseFloat(getComputedStyle(text).fontSize) * svg.getBoundingClientRect().width /
            svg.viewBox.baseVal.width;
    })));
    judge('letters of pictures are 8 px high or more on a phone', least >= 8, least + ' px');
    await page.close();
}

async function printed(browser) {
    for (const format of Object.keys(PAPER)) {
        const [width, height] = PAPER[format].map((mm) => (mm - 28) * MM);
        const page = await open(browser, report, Math.floor(width), 'light');
        await page.emulateMediaType('print');
        const parts = await page.$$eval('figure', (all) => all.map((figure) => ({
            high: figure.getBoundingClientRect().height,
            wide: figure.getBoundingClientRect().right,
            kept: getComputedStyle(figure).breakInside,
        })));
        judge(`on ${format} every picture finds room on one page, and is kept whole`,
            parts.every((p) => p.high > 0 && p.high < height && p.wide <= width + 1 && p.kept === 'avoid'),
            JSON.stringify(parts.map((p) => Math.round(p.high))));
        await page.close();
        const sheet = await open(browser, handover, 800, 'light');
        const pdf = Buffer.from(await sheet.pdf({ format, printBackground: true })).toString('latin1');
        const pages = (pdf.match(/\/Type\s*\/Page\b(?!s)/g) || []).length;
        judge(`on ${format} a handover is one page`, pages === 1, pages + ' pages');
        await sheet.close();
    }
}

async function valid() {
    let validator;
    try {
        validator = new (require('html-validate').HtmlValidate)({ extends: ['html-validate:recommended'],
            rules: { 'no-inline-style': 'off' } });
    } catch (missing) {
        console.log('skip - html-validate isn\'t installed');
        return;
    }
    for (const file of [report, handover]) {
        const told = await validator.validateString(fs.readFileSync(file, 'utf8'));
        judge(`${file.replace(/.*\//, '')} is valid`, told.valid, told.results.flatMap((r) => r.messages)
            .slice(0, 3).map((m) => `${m.ruleId} in line ${m.line}: ${m.message}`).join('; '));
    }
}

(async () => {
    const browser = await puppeteer.launch({ executablePath: chromium, headless: true,
        args: ['--no-sandbox', '--disable-gpu'] });
    try {
        await access(browser, report, 'report', 360, 'dark');
        await access(browser, report, 'report', 900, 'light');
        await access(browser, handover, 'handover', 360, 'light');
        await access(browser, handover, 'handover', 900, 'dark');
        await days(browser);
        await letters(browser);
        await printed(browser);
        await valid();
    } finally {
        await browser.close();
    }
    process.exit(failed ? 1 : 0);
})().catch((error) => { console.log('not ok - the browser: ' + error.message); process.exit(1); });
