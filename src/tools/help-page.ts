/** help.html: every function on one page, each at its own address `help.html#NAME`. */
import type { FunctionHelp } from "../taskpane/parts/functions/function-help";
import { readFunctionDocs } from "./function-docs";
import { escapeHtml } from "./html";
import { htmlPage } from "./html-page";

export function makeHelpPage(): string {
  const docs = readFunctionDocs();
  const headings = [...new Set(docs.map(({ heading }) => heading))];
  const list = headings
    .map((heading) => {
      const links = docs
        .filter((help) => help.heading === heading)
        .map(({ id, sentence }) => `<li><a href="#${id}">${id}</a> ${escapeHtml(sentence)}</li>`);
      return `<h2>${escapeHtml(heading)}</h2>\n<ul>\n${links.join("\n")}\n</ul>`;
    })
    .join("\n");
  return htmlPage({
    icon: "icons/icon-32.png",
    title: "Twirl Ledger: the functions",
    styles: ["help.css"],
    main: `<h1>Twirl Ledger: the functions</h1>
<p>Type a function into a cell, such as <code>=TWIRL.READINESS(C2:C41)</code>. An argument in [brackets] may be left out. A cell that shows <code>#VALUE!</code> or <code>#N/A</code> has a message that says where and what to do. <a href="guide.html">One trick through the whole job</a> shows how they go together.</p>
<nav aria-label="Functions">
${list}
</nav>
${docs.map(section).join("\n")}`,
  });
}

function section({ id, sentence, syntax, parameters, answer, example, errors, source }: FunctionHelp): string {
  const rows = parameters.map(
    ({ name, optional, description }) =>
      `<dt>${optional ? `[${escapeHtml(name)}]` : escapeHtml(name)}</dt><dd>${escapeHtml(description)}</dd>`,
  );
  return `<section id="${id}" aria-labelledby="${id}-name">
<h2 id="${id}-name">${id}</h2>
<p>${escapeHtml(sentence)}</p>
<p><code>=${escapeHtml(syntax)}</code></p>
<dl>
${rows.join("\n")}
</dl>
<p><b>Answer.</b> ${escapeHtml(answer)}</p>
<p><b>Example.</b> <code>${escapeHtml(example.formula)}</code> shows ${escapeHtml(example.shows)}.</p>
<p><b>Errors.</b> ${escapeHtml(errors)}</p>
<p><b>Source.</b> ${escapeHtml(source)}</p>
</section>`;
}
