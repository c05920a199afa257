#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

namespace app::report {

using namespace evidence::record;

namespace {

void writeDefaults(Writing& writing) {
    Document& document = writing.document;
    document.heading(2, QStringLiteral("Defaults used where nobody gave an uncertainty"),
                     QStringLiteral("defaults"));
    Table table;
    table.columns = {{QStringLiteral("Evidence"), 2, Align::Left},
                     {QStringLiteral("Taken as (rectangular, unless it says u)"), 6, Align::Left}};
    const auto row = [&](const char* what, const QString& words) {
        table.rows.push_back({{Text(what), Text(words)}, {}, false});
    };
    const auto text = [](const char* words) { return QString::fromUtf8(words); };
    const Settings s = writing.index.reg.archive.settings.value_or(Settings{});
    row("figured on a drawing",
        text("± half of the finest step used on that sheet; “about” makes it stated"));
    row("stated, told", text("± half the unit it was rounded to: “about nine feet” is ± 6 in"));
    row("gauged on a part",
        text("steel rule ± 1⁄64 in, caliper ± 0.002 in, tape ± 1⁄16 in for each 10 ft"));
    row("measured on a drawing",
        QStringLiteral(
            "the marks’ own, and the draughtsman’s placing of %1 in on the paper per line "
            "end, times the drawn scale (u)")
            .arg(rounded(s.draughtsmanPlacing.value_or(0.01), 2)));
    row("a mark without its own",
        QStringLiteral("u %1 px in each direction").arg(rounded(s.markU.value_or(0.5), 2)));
    row("scale by scan and drawn scale", QStringLiteral("relative u %1 for shrinkage")
                                             .arg(rounded(s.printURelative.value_or(0.005), 2)));
    row("nearer or farther than the scale, not entered",
        QStringLiteral(
            "value and u stay, the grade is B at best; the camera is taken as %1 in away")
            .arg(rounded(s.offPlaneDistance.value_or(240), 3)));
    row("from a relative", QStringLiteral("u %1 of the value, never less")
                               .arg(percent(s.analogousRelative.value_or(0.02))));
    row("guessed",
        QStringLiteral(
            "half-width at least %1 of the value or %2 in, whichever is larger (angles %3°, "
            "masses %4, counts %5)")
            .arg(percent(s.guessFloorRelative.value_or(0.03)),
                 rounded(s.guessFloorLength.value_or(0.25), 2),
                 rounded(s.guessFloorAngle.value_or(2), 2),
                 percent(s.guessFloorMass.value_or(0.10)),
                 rounded(s.guessFloorCount.value_or(1), 2)));
    document.add(std::move(table));
}

void writeSettings(Writing& writing) {
    Document& document = writing.document;
    const ArchiveInfo& archive = writing.index.reg.archive;
    const Settings s = archive.settings.value_or(Settings{});
    document.heading(2, QStringLiteral("Settings of this register"), QStringLiteral("settings"));
    Table table;
    table.columns = {{QStringLiteral("Setting"), 4, Align::Left},
                     {QStringLiteral("Here"), 1.4, Align::Right},
                     {QStringLiteral("Standard"), 1.4, Align::Right}};
    const auto row = [&](const char* what, const std::optional<double>& here, double standard) {
        Text value(rounded(here.value_or(standard), 4));
        if (here && *here != standard) value = Text().bold(rounded(*here, 4), Tone::Blue);
        table.rows.push_back({{Text(what), value, Text(rounded(standard, 4))}, {}, false});
    };
    row("Misfit that counts as a conflict, in its own spreads", s.conflictW, 3.29);
    row("Share of guesses and borrowings above which a size is no better than F", s.shareNotAboveF,
        0.10);
    row("… no better than T", s.shareNotAboveT, 0.25);
    row("… no better than B", s.shareNotAboveB, 0.50);
    row("… C or O", s.shareOurs, 0.80);
    row("Steps from mark to size that make a long run", s.longChainSteps, 5);
    row("Workmanship: spread of one made article about its design, in (u)", archive.workmanship, 0);
    document.add(std::move(table));
    if (s.workmanshipByComponent.empty() && s.tableRows.empty()) return;
    List list;
    for (const auto& [component, u] : s.workmanshipByComponent)
        list.items.emplace_back(
            QStringLiteral("Workmanship of %1: u %2 in").arg(shown(component), rounded(u, 2)));
    for (const auto& own : s.tableRows) {
        Text words(
            QStringLiteral("Table row of this register, %1: %2 %3, u %4, ")
                .arg(shown(own.name), rounded(own.value, 6), shown(own.unit), rounded(own.u, 2)));
        words.link(writing.index.code(own.source.text), writing.index.anchor(own.source.text));
        list.items.push_back(std::move(words));
    }
    document.add(std::move(list));
}

}  // namespace

void writeMethod(Writing& writing) {
    Document& document = writing.document;
    const auto& network = writing.index.analysis.network;
    document.blocks.emplace_back(Heading{
        1, QStringLiteral("Method, in plain words"), QStringLiteral("method"), {}, {}, true});
    const ArchiveInfo& archive = writing.index.reg.archive;
    if (archive.statement && archive.statement->method)
        document.paragraph(Text(shown(*archive.statement->method)));
    document.paragraph(Text(
        "What is sought is the size as designed, in the state of the original that is being "
        "rebuilt. Every size, every scale and every error that several readings share is an "
        "unknown; every reading, known length and relation is one statement about them. All are "
        "balanced together, each with the weight that its uncertainty earns (weighted least "
        "squares, as a survey net is balanced). So two readings from one photograph share the "
        "error of its scale, and one better known length improves everything measured with it."));
    document.paragraph(Text(
        "A size rests on a guess if it can no longer be worked out once all guesses are taken "
        "away. The same test, with each class of evidence in turn, gives the grade. Sources that "
        "descend from one another count once. Uncertainties follow the Guide to the Expression of "
        "Uncertainty in Measurement (JCGM 100:2008) and its supplement (JCGM 101:2008); 95 % "
        "intervals are worked out from what pulls the value, or counted from many draws where that "
        "would be off by a twentieth, and are cut by hard limits. Nothing is "
        "tuned afterwards to make the evidence agree."));
    document.paragraph(Text(
        "Every reading is also asked how well the others control it: the smallest mistake that "
        "would have shown, at a chance of one in a thousand of a false alarm and four in five of "
        "being found."));
    Facts facts;
    facts.add(QStringLiteral("Unknowns"), Text(QString::number(network.unknowns)));
    facts.add(QStringLiteral("Statements about them"), Text(QString::number(network.observations)));
    facts.add(QStringLiteral("More than needed"), Text(rounded(network.redundancy, 4)));
    if (network.p)
        facts.add(QStringLiteral("Fit of the whole"),
                  Text(QStringLiteral(
                           "%1 where %2 is expected; a worse fit would come by chance in %3 of "
                           "cases")
                           .arg(rounded(network.chi2, 3), rounded(network.redundancy, 3),
                                percent(*network.p))));
    if (!network.converged)
        facts.add(
            QStringLiteral("Caution"),
            Text().add(QStringLiteral("the balance did not settle; its figures are not to be used"),
                       Tone::Red));
    document.add(std::move(facts));
    document.paragraph(Text(
        "Units: 1 in is 25.4 mm and 1 lb is 0.45359237 kg, exactly. Figures are rounded to what "
        "the "
        "doubt earns (two significant digits of it), fractions to the nearest step, halves to the "
        "even step; the rounding is printed beside them."));
    writeDefaults(writing);
    writeSettings(writing);
    if (writing.index.reg.sharedErrors.empty()) return;
    document.heading(2, QStringLiteral("Errors that several readings share"),
                     QStringLiteral("shared-errors"));
    Table table;
    table.columns = {{QStringLiteral("Error"), 3, Align::Left},
                     {QStringLiteral("u"), 1, Align::Right},
                     {QStringLiteral("Basis"), 2, Align::Left},
                     {QStringLiteral("Acts on"), 4, Align::Left}};
    for (const SharedError& e : writing.index.reg.sharedErrors) {
        Text on;
        for (std::size_t i = 0; i < e.on.size() && i < 10; ++i)
            on.add((i == 0 ? QString() : QStringLiteral(", ")) +
                   writing.index.label(e.on[i].record.text));
        if (e.on.size() > 10) on.add(QStringLiteral(" and %1 more").arg(e.on.size() - 10));
        const QString u = e.kind == SharedErrorKind::Relative
                              ? rounded(e.u * 100, 2) + QStringLiteral(" %")
                              : rounded(e.u, 2);
        table.rows.push_back(
            {{Text(shown(e.label)), Text(u),
              Text(e.basis ? basisWords(*e.basis) : QStringLiteral("none: a guess")), on},
             writing.index.anchor(e.id.text),
             e.setAside.has_value()});
    }
    document.add(std::move(table));
}

}  // namespace app::report
