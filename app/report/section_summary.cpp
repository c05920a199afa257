#include "app/report/figure/grade_mark.h"
#include "app/report/grade_shares.h"
#include "app/report/ink.h"
#include "app/report/sections.h"
#include "app/report/value_words.h"
#include "app/report/wording.h"

#include <QFont>
#include <QPainter>

#include <algorithm>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

const Grade kGrades[] = {Grade::InHand,      Grade::Figured, Grade::TakenOff, Grade::BoxedIn,
                         Grade::CarriedOver, Grade::OurCall, Grade::Blank};

void paintBars(QPainter& painter, const QRectF& rect, const std::vector<GradeShare>& shares) {
    painter.save();
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setPixelSize(7);
    font.setHintingPreference(QFont::PreferNoHinting);
    painter.setFont(font);
    const double labelWide = 62;
    const double step = rect.height() / double(std::max<std::size_t>(1, shares.size()));
    double y = rect.top();
    for (const GradeShare& share : shares) {
        painter.setPen(kInk);
        painter.drawText(QRectF(rect.left(), y, labelWide, step),
                         int(Qt::AlignLeft | Qt::AlignVCenter), share.name);
        const QRectF bar(rect.left() + labelWide, y + step * 0.14, rect.width() - labelWide,
                         step * 0.72);
        double x = bar.left();
        for (const Grade grade : kGrades) {
            const double part = share.of(grade);
            if (part <= 0) continue;
            const QRectF piece(x, bar.top(), bar.width() * part, bar.height());
            figure::drawGradeFill(painter, piece, grade, kInk, kPaper);
            if (piece.width() > 14) {
                const QRectF plate(piece.center().x() - 4.5, piece.center().y() - 4.5, 9, 9);
                painter.setPen(QPen(kInk, 0.4));
                painter.setBrush(kPaper);
                painter.drawRect(plate);
                painter.setPen(kInk);
                painter.drawText(plate, int(Qt::AlignCenter), gradeLetter(grade));
            }
            x += piece.width();
        }
        y += step;
    }
    painter.restore();
}

int countFindings(const Writing& writing, const std::vector<std::string>& kinds) {
    return int(std::count_if(writing.index.analysis.findings.begin(),
                             writing.index.analysis.findings.end(), [&](const Finding& f) {
                                 return std::find(kinds.begin(), kinds.end(), f.kind) !=
                                        kinds.end();
                             }));
}

}  // namespace

void writeSummary(Writing& writing) {
    Document& document = writing.document;
    const RegisterIndex& index = writing.index;
    document.blocks.emplace_back(
        Heading{1, QStringLiteral("Summary"), QStringLiteral("summary"), {}, {}, true});
    const std::vector<GradeShare> shares = gradeShares(index, writing.selection);
    document.paragraph(
        Text("How the sizes are held up, from the best evidence to our own choice. By count, the "
             "figure flatters: guesses hide in a few large parts. The lines by length and by mass "
             "are the more honest ones."));
    Figure bars;
    bars.size = QSizeF(470, 18.0 * double(shares.size()));
    bars.paint = [shares](QPainter& painter, const QRectF& rect) {
        paintBars(painter, rect, shares);
    };
    bars.description = QStringLiteral("Shares of the grades");
    document.add(Figures{{bars}});

    Table table;
    table.columns = {{QStringLiteral("Weighed by"), 2.4, Align::Left}};
    for (const Grade grade : kGrades) table.columns.push_back({gradeSign(grade), 1, Align::Right});
    table.columns.push_back({QStringLiteral("H + F"), 1.1, Align::Right});
    table.columns.push_back({QStringLiteral("C + O"), 1.1, Align::Right});
    for (const GradeShare& share : shares) {
        Row row;
        row.cells.emplace_back(share.name + QStringLiteral(" (") + share.total +
                               QStringLiteral(")"));
        for (const Grade grade : kGrades) row.cells.emplace_back(percent(share.of(grade)));
        row.cells.emplace_back(percent(share.of(Grade::InHand) + share.of(Grade::Figured)));
        row.cells.emplace_back(percent(share.of(Grade::CarriedOver) + share.of(Grade::OurCall)));
        table.rows.push_back(std::move(row));
    }
    document.add(std::move(table));

    int guesses = 0;
    int critical = 0;
    int undetermined = 0;
    for (const Dimension* d : writing.selection.dimensions) {
        const DimensionResult* r = index.result(d->id.text);
        if (r == nullptr || !r->value) ++undetermined;
        if (r == nullptr || !r->restsOnGuess) continue;
        ++guesses;
        if (d->critical.value_or(false)) ++critical;
    }
    int openQueries = 0;
    for (const Query& q : index.reg.queries)
        if (q.state.value_or(QueryState::Open) == QueryState::Open) ++openQueries;
    int noAnswer = 0;
    for (const Enquiry& e : index.reg.enquiries)
        if (!e.answer && !e.answeredOn) ++noAnswer;
    Table counts;
    counts.columns = {{QStringLiteral("What is open, what is ours"), 3, Align::Left},
                      {QStringLiteral("How many"), 1, Align::Right},
                      {QStringLiteral("Where it stands"), 3, Align::Left}};
    const auto count = [&](const char* label, int n, const char* where, const char* target,
                           Tone tone = Tone::Ink) {
        counts.rows.push_back({{Text(label), Text().bold(QString::number(n), tone),
                                Text().link(QString::fromUtf8(where), QString::fromUtf8(target))},
                               {},
                               false});
    };
    count("Sizes that rest on a guess", guesses, "Where conjecture begins", "guesses");
    if (critical > 0)
        count("… of them safety-critical", critical, "Where conjecture begins", "guesses",
              Tone::Red);
    count("Sizes that cannot be worked out", undetermined, "Conflicts and findings", "conflicts");
    count("Conflicts, and sums that do not close",
          countFindings(writing, {"conflict", "loop-open", "limits-exclude", "particular-disagree",
                                  "echoes-disagree"}),
          "Conflicts and findings", "conflicts");
    count("Sizes that go back to one origin", countFindings(writing, {"single-origin"}),
          "One witness only", "one-witness");
    count("Deliberate departures", int(index.reg.departures.size()), "Departures", "departures");
    count("Queries still open", openQueries, "What was asked, and how it was answered",
          "questions");
    count("Enquiries without an answer yet", noAnswer, "What was asked, and how it was answered",
          "questions");
    document.add(std::move(counts));
    std::string lastSeen;
    for (const Signoff& s : index.reg.signoffs) lastSeen = std::max(lastSeen, s.at);
    document.paragraph(
        Text(lastSeen.empty()
                 ? QStringLiteral("No reviewer has signed anything off yet.")
                 : QStringLiteral("Last seen by a reviewer: %1.").arg(dateWords(lastSeen))));

    List first;
    for (const Finding& f : index.analysis.findings) {
        if (f.severity != Severity::High || f.acknowledged || first.items.size() >= 8) continue;
        Text words(shown(f.text));
        if (!f.on.empty())
            words.add(QStringLiteral(" ["))
                .link(index.code(f.on.front().text), index.anchor(f.on.front().text))
                .add(QStringLiteral("]"));
        first.items.push_back(std::move(words));
    }
    if (!first.items.empty()) {
        document.paragraph(Text("What a reviewer will ask about first"), ParagraphStyle::Label);
        document.add(std::move(first));
    }
}

}  // namespace app::report
