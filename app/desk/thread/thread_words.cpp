#include "app/desk/thread/thread_words.h"

#include "app/desk/look/look.h"
#include "app/report/caution.h"
#include "app/report/document.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"
#include "app/session/relation_says.h"
#include "app/session/shown.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>

namespace app::desk::thread {

namespace record = evidence::record;
namespace judgement = evidence::judgement;
using report::shown;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Thread)
};

QString escaped(const std::string& words) {
    return shown(words).toHtmlEscaped();
}

QString inPencil(const QColor& pencil, const QString& html) {
    return QStringLiteral("<span style=\"color:%1\">%2</span>").arg(pencil.name(), html);
}

/// Paragraphs with a bold lead.
class Sheet {
  public:
    void say(const QString& lead, const QString& html) {
        if (html.isEmpty()) return;
        m_html +=
            QStringLiteral("<p style=\"margin-top:0; margin-bottom:6px\">%1%2</p>")
                .arg(lead.isEmpty() ? QString() : QStringLiteral("<b>%1</b> ").arg(lead), html);
    }
    [[nodiscard]] const QString& html() const { return m_html; }

  private:
    QString m_html;
};

void sayGrade(Sheet& sheet, record::Grade grade, const std::string& why,
              const std::string& raiseBy) {
    sheet.say(report::gradeName(grade).toHtmlEscaped() + QLatin1Char('.'),
              report::gradeMeaning(grade).toHtmlEscaped());
    sheet.say(Words::tr("Why."), escaped(why));
    sheet.say(Words::tr("To raise it."), escaped(raiseBy));
}

void sayGuesses(Sheet& sheet, const record::Dimension& dimension,
                const judgement::DimensionResult& result) {
    const QColor red = look::colours().redPencil;
    if (report::cautionOn(dimension, result) != report::Caution::None)
        sheet.say({}, inPencil(red, report::cautionWords().toHtmlEscaped()));
    if (result.restsOnGuess) {
        sheet.say({}, inPencil(red, Words::tr("It rests on a guess: without our guesses it cannot "
                                              "be worked out.")));
        return;
    }
    if (!(result.guessPull > 0.005)) return;
    QString words =
        Words::tr("Guesses carry %1 of its doubt.").arg(report::percent(result.guessPull));
    if (const auto& without = result.withoutGuess; without && without->value) {
        const auto sign = report::unitSign(record::unitOf(dimension));
        // ± on a screen is half of the 95 % interval.
        words += QLatin1Char(' ') +
                 Words::tr("Without them it would be %1 ± %2 %3.")
                     .arg(report::figureFor(*without->value, 1.96 * without->u.value_or(0)),
                          report::rounded(1.96 * without->u.value_or(0), 2), sign);
    }
    sheet.say({}, words.toHtmlEscaped());
}

void sayRuling(Sheet& sheet, const report::RegisterIndex& index, const record::AnyId& size,
               const record::Dimension* dimension) {
    const auto rulings = index.rulingsOf(size.text);
    if (rulings.empty()) {
        sheet.say(Words::tr("Ruling."), Words::tr("None yet."));
        return;
    }
    const record::Ruling& ruling = *rulings.front();
    QString words =
        QStringLiteral("%1. %2 (%3, %4)")
            .arg(report::writtenWords(ruling.value, ruling.unit, dimension), shown(ruling.reason),
                 index.personName(ruling.by.text), report::dateWords(ruling.at))
            .toHtmlEscaped();
    const auto findings = index.findingsOn(size.text);
    const bool stale = std::ranges::any_of(
        findings, [](const auto* finding) { return finding->kind == "ruling-stale"; });
    words += QLatin1Char(' ') + (stale ? inPencil(look::colours().redPencil,
                                                  Words::tr("Its evidence has changed since."))
                                       : Words::tr("Its evidence stands as it was."));
    sheet.say(Words::tr("Ruling."), words);
}

void sayDepartures(Sheet& sheet, const report::RegisterIndex& index, const record::AnyId& size,
                   const record::Dimension* dimension) {
    for (const auto* departure : report::RegisterIndex::on(index.reg.departures, size.text)) {
        const QString built = report::writtenWords(departure->to, departure->unit, dimension);
        const QString reason = shown(departure->reason);
        const QString words = departure->why == record::DepartureWhy::Other
                                  ? Words::tr("The build has %1: %2").arg(built, reason)
                                  : Words::tr("The build has %1 for %2: %3")
                                        .arg(built, report::whyWords(departure->why), reason);
        sheet.say(Words::tr("Departure."), words.toHtmlEscaped());
    }
}

/// Relations in names; the formula as entered, in codes, is the tooltip.
void sayRelations(Sheet& sheet, const report::RegisterIndex& index,
                  const record::Dimension& dimension) {
    const std::string code = index.code(dimension.id.text).toStdString();
    QStringList lines;
    for (const auto& relation : index.reg.relations) {
        if (relation.formula.find(code) == std::string::npos) continue;  // spares the reading of it
        const auto told = session::whatRelationSays(relation, dimension, index.reg, index.analysis);
        if (!told) continue;
        QString words = escaped(told->words);
        const auto* result = index.relationResult(relation.id.text);
        if (relation.setAside)
            words = inPencil(look::colours().graphite, Words::tr("%1 (set aside)").arg(words));
        else if (result && !result->holds)
            words +=
                QLatin1Char(' ') + inPencil(look::colours().redPencil, Words::tr("does not hold"));
        lines
            << QStringLiteral("<span title=\"%1\">%2</span>").arg(escaped(relation.formula), words);
    }
    sheet.say(Words::tr("Stands in."), lines.join(QStringLiteral("<br>")));
}

QString head(const QString& name, const QString& code, const QString& value, record::Grade grade) {
    const auto& colours = look::colours();
    return QStringLiteral("<b>%1</b> %2 &nbsp; %3 &nbsp; %4")
        .arg(name.toHtmlEscaped(), inPencil(colours.graphite, code.toHtmlEscaped()),
             value.toHtmlEscaped(),
             (report::gradeSign(grade) + QLatin1Char(' ') + report::gradeName(grade))
                 .toHtmlEscaped());
}

}  // namespace

QString headWords(const report::RegisterIndex& index, const record::AnyId& size) {
    if (const auto* dimension = index.dimension(size.text))
        if (const auto* result = index.result(size.text))
            return head(
                shown(dimension->name), index.code(size.text),
                QString::fromStdString(session::shown(*result, *dimension, index.reg.archive,
                                                      evidence::quantity::Typesetting::Typographic)
                                           .text()),
                result->grade);
    if (const auto* particular = index.particular(size.text))
        if (const auto* result = index.particularResult(size.text))
            return head(shown(particular->name), index.code(size.text),
                        result->value ? shown(*result->value) : Words::tr("not known"),
                        result->grade);
    return {};
}

QString threadWords(const report::RegisterIndex& index, const record::AnyId& size) {
    Sheet sheet;
    const auto* dimension = index.dimension(size.text);
    if (const auto* result = index.result(size.text); dimension && result) {
        sayGuesses(sheet, *dimension, *result);
        sayGrade(sheet, result->grade, result->gradeWhy, result->raiseBy);
    } else if (const auto* known = index.particularResult(size.text)) {
        sayGrade(sheet, known->grade, known->gradeWhy, {});
        if (!known->agree)
            sheet.say({}, inPencil(look::colours().redPencil, Words::tr("Its sources disagree.")));
    } else {
        return {};
    }
    sayRuling(sheet, index, size, dimension);
    sayDepartures(sheet, index, size, dimension);
    if (dimension) sayRelations(sheet, index, *dimension);
    return sheet.html();
}

}  // namespace app::desk::thread
