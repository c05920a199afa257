#include "app/report/html_style.h"

namespace app::report {

QByteArray htmlStyle() {
    return R"css(
:root { color-scheme: light; }
html { background: #F1EDE3; }
body { margin: 0 auto; max-width: 56rem; padding: 2.5rem 3rem 5rem; background: #FAF8F2;
  color: #1C2B39; font: 1rem/1.5 "DejaVu Serif", Georgia, serif;
  font-variant-numeric: tabular-nums lining-nums; overflow-wrap: anywhere; }
h1 { font-size: 2.3rem; line-height: 1.15; margin: .3rem 0 1rem; }
h2 { font-size: 1.6rem; line-height: 1.2; margin: 3.5rem 0 1rem; padding-bottom: .35rem;
  border-bottom: 1.5px solid #1C2B39; }
h3 { font-size: 1.2rem; margin: 2.2rem 0 .6rem; }
h4 { font: bold 1rem/1.35 "DejaVu Sans", Verdana, sans-serif; margin: 2rem 0 .5rem; padding-top: .35rem;
  border-top: 1px solid #1C2B39; display: flex; gap: .6rem; align-items: baseline; }
h4 .name { flex: 1; }
h4 .aside { font: 1.05rem/1.3 "DejaVu Serif", Georgia, serif; text-align: right; }
h4 svg { flex: none; align-self: center; }
a { color: #2F5D8C; text-decoration: none; } a:hover, a:focus { text-decoration: underline; }
p { margin: 0 0 .7rem; }
.subtitle { color: #2F5D8C; font-family: "DejaVu Sans", Verdana, sans-serif; margin-top: 3rem; }
.lead { font-size: 1.2rem; } .small, figcaption, caption { font: .78rem/1.45 "DejaVu Sans", Verdana, sans-serif;
  color: #5B6370; }
.label { font: bold .85rem/1.4 "DejaVu Sans", Verdana, sans-serif; margin: 1rem 0 .2rem; }
.quote { margin-left: 1.4rem; } .faint, tr.faint td { color: #5B6370; } .red { color: #B3402E; }
.blue { color: #2F5D8C; }
.note, .caution { font: .85rem/1.45 "DejaVu Sans", Verdana, sans-serif; border-left: 2px solid #B3402E;
  padding: .15rem 0 .15rem .7rem; }
.caution { border-left-width: 4px; background: #F1EDE3; padding: .5rem .8rem; }
code { font: .78em/1.4 "DejaVu Sans Mono", Menlo, monospace; word-break: break-all; }
dl { display: grid; grid-template-columns: 10rem 1fr; gap: .2rem .8rem; margin: 0 0 .8rem; }
dt { font: .8rem/1.6 "DejaVu Sans", Verdana, sans-serif; color: #5B6370; } dd { margin: 0; min-width: 0; }
ul { margin: 0 0 .8rem; padding-left: 1.2rem; } li { margin-bottom: .25rem; } li::marker { content: "– "; }
.scroll { overflow-x: auto; margin: .4rem 0 1.1rem; }
table { border-collapse: collapse; table-layout: fixed; width: 100%; min-width: 38rem; font: .8rem/1.45 "DejaVu Sans", Verdana, sans-serif; }
th { text-align: left; vertical-align: bottom; color: #5B6370; font-size: .74rem;
  border-bottom: 1px solid #1C2B39; padding: .2rem .4rem .2rem 0; }
td { vertical-align: top; border-bottom: 1px solid #D8D2C4; padding: .3rem .4rem .3rem 0; }
.right { text-align: right; }
.figures { display: flex; flex-wrap: wrap; gap: 1rem; margin: .6rem 0 1.1rem; }
figure { margin: 0; max-width: 100%; } figure svg { width: 100%; height: auto; display: block; overflow: hidden; }
figcaption { margin-top: .25rem; }
nav > ol { columns: 2; column-gap: 2rem; } nav > ol > li { break-inside: auto; } nav ol { list-style: none; padding: 0; } nav ol ol { padding-left: 1.2rem; font-size: .92rem; }
nav li { margin: .12rem 0; } nav > ol > li { font-weight: bold; } nav ol ol li { font-weight: normal; }
nav li::marker { content: none; }
footer { margin-top: 3rem; border-top: 1px solid #D8D2C4; padding-top: .5rem; }
@media (max-width: 40rem) { body { padding: 1.2rem 1rem 3rem; } nav > ol { columns: 1; } dl { grid-template-columns: 1fr; gap: 0 0; } }
@media print {
  html, body { background: #fff; max-width: none; padding: 0; font-size: 9pt; }
  h2 { break-before: page; } h2, h3, h4, .label { break-after: avoid; } figure, tr, .caution { break-inside: avoid; }
  a { color: inherit; } thead { display: table-header-group; } body { padding-bottom: 1.2cm; }
  footer { position: fixed; bottom: 0; left: 0; right: 0; margin: 0; background: #fff; }
}
)css";
}

}  // namespace app::report
