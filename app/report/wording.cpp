#include "app/report/wording.h"

#include "app/report/figure/grade_mark.h"

#include <QDate>
#include <QRegularExpression>

#include <map>

namespace app::report {

using namespace evidence::record;

QString gradeLetter(Grade grade) {
    return figure::gradeLetter(grade);
}
QString gradeName(Grade grade) {
    return figure::gradeName(grade);
}
QString gradeMeaning(Grade grade) {
    return figure::gradeMeaning(grade);
}

QString gradeSign(Grade grade) {
    QString mark;
    switch (grade) {
        case Grade::InHand:
            mark = QStringLiteral("■");
            break;
        case Grade::Figured:
            mark = QStringLiteral("●");
            break;
        case Grade::TakenOff:
            mark = QStringLiteral("▲");
            break;
        case Grade::BoxedIn:
            mark = QStringLiteral("□");
            break;
        case Grade::CarriedOver:
            mark = QStringLiteral("○");
            break;
        case Grade::OurCall:
            mark = QStringLiteral("×");
            break;
        case Grade::Blank:
            return QStringLiteral("–");
    }
    return mark + QStringLiteral("\u00A0") + gradeLetter(grade);
}

QString basisWords(Basis basis) {
    switch (basis) {
        case Basis::Scaled:
            return QStringLiteral("measured on the picture");
        case Basis::Figured:
            return QStringLiteral("figured on the drawing");
        case Basis::Stated:
            return QStringLiteral("stated");
        case Basis::Gauged:
            return QStringLiteral("gauged on the part");
        case Basis::Told:
            return QStringLiteral("told from memory");
        case Basis::Analogous:
            return QStringLiteral("from a relative");
        case Basis::Interpolated:
            return QStringLiteral("between known neighbours");
        case Basis::Inferred:
            return QStringLiteral("inferred");
        case Basis::Limit:
            return QStringLiteral("limit");
        case Basis::Guessed:
            return QStringLiteral("guessed");
        case Basis::Measured:
            return QStringLiteral("measured on site");
        case Basis::Symmetry:
            return QStringLiteral("symmetry");
        case Basis::TradeRule:
            return QStringLiteral("trade rule");
        case Basis::Assumed:
            return QStringLiteral("assumed");
        case Basis::Geometry:
            break;
    }
    return QStringLiteral("geometry");
}

QString basisSentence(Basis basis) {
    switch (basis) {
        case Basis::Scaled:
            return QStringLiteral("a mark on a page, turned into inches by its scale");
        case Basis::Figured:
            return QStringLiteral("a size written on a drawing");
        case Basis::Stated:
            return QStringLiteral("a text says so");
        case Basis::Gauged:
            return QStringLiteral("a surviving part measured with an instrument");
        case Basis::Told:
            return QStringLiteral("somebody remembers it");
        case Basis::Analogous:
            return QStringLiteral("a sister or contemporary design has it so");
        case Basis::Interpolated:
            return QStringLiteral("between known members of a series");
        case Basis::Inferred:
            return QStringLiteral("the only shape that fits known confines");
        case Basis::Limit:
            return QStringLiteral("greater than, less than, between, touches, clears");
        case Basis::Guessed:
            return QStringLiteral("chosen by us between stated bounds");
        case Basis::Measured:
            return QStringLiteral("measured on site or on a page");
        case Basis::Symmetry:
            return QStringLiteral("the same as its counterpart");
        case Basis::TradeRule:
            return QStringLiteral("what the trade used to do");
        case Basis::Assumed:
            return QStringLiteral("taken as so, without evidence");
        case Basis::Geometry:
            break;
    }
    return QStringLiteral("true by what the words mean");
}

QString kindWords(SourceKind kind) {
    switch (kind) {
        case SourceKind::Drawing:
            return QStringLiteral("drawing");
        case SourceKind::Photograph:
            return QStringLiteral("photograph");
        case SourceKind::Text:
            return QStringLiteral("text");
        case SourceKind::Part:
            return QStringLiteral("surviving part");
        case SourceKind::Testimony:
            return QStringLiteral("testimony");
        case SourceKind::Rebuild:
            return QStringLiteral("earlier rebuild");
        case SourceKind::Standard:
            break;
    }
    return QStringLiteral("published standard");
}

QString authorityWords(Authority authority) {
    switch (authority) {
        case Authority::Maker:
            return QStringLiteral("the maker's own");
        case Authority::Eyewitness:
            return QStringLiteral("an eyewitness");
        case Authority::Later:
            return QStringLiteral("later hand");
        case Authority::Modern:
            break;
    }
    return QStringLiteral("modern hand");
}

QString standingWords(Standing standing) {
    switch (standing) {
        case Standing::Proposal:
            return QStringLiteral("proposal (may never have been built)");
        case Standing::Issued:
            return QStringLiteral("issued to the works");
        case Standing::AsBuilt:
            return QStringLiteral("shows it as built");
        case Standing::Altered:
            return QStringLiteral("shows it altered");
        case Standing::Unknown:
            break;
    }
    return QStringLiteral("standing not known");
}

QString descentWords(DescentKind kind) {
    switch (kind) {
        case DescentKind::Copy:
            return QStringLiteral("copy of");
        case DescentKind::Tracing:
            return QStringLiteral("tracing of");
        case DescentKind::Redrawing:
            return QStringLiteral("redrawing of");
        case DescentKind::Excerpt:
            return QStringLiteral("excerpt from");
        case DescentKind::SameNegative:
            return QStringLiteral("from the same negative as");
        case DescentKind::RebuiltFrom:
            return QStringLiteral("rebuilt from");
        case DescentKind::ThisArchive:
            break;
    }
    return QStringLiteral("made from this register's own figures in");
}

QString scaleWords(FrameModel model) {
    switch (model) {
        case FrameModel::Uniform:
            return QStringLiteral("one scale in all directions");
        case FrameModel::Stretch:
            return QStringLiteral("shrunk paper, two scales and a slant");
        case FrameModel::Printed:
            return QStringLiteral("scan resolution and drawn scale");
        case FrameModel::Plane:
            return QStringLiteral("one plane of a photograph");
        case FrameModel::Line:
            return QStringLiteral("one straight line of a photograph");
        case FrameModel::Upright:
            return QStringLiteral("heights above the ground");
        case FrameModel::Camera:
            break;
    }
    return QStringLiteral("where the camera stood");
}

QString madeWords(Made made) {
    switch (made) {
        case Made::Picked:
            return QStringLiteral("placed by hand");
        case Made::Edge:
            return QStringLiteral("fitted to the edge");
        case Made::LineCentre:
            return QStringLiteral("fitted to the middle of the line");
        case Made::Corner:
            break;
    }
    return QStringLiteral("fitted to the corner");
}

QString whyWords(DepartureWhy why) {
    switch (why) {
        case DepartureWhy::Safety:
            return QStringLiteral("safety");
        case DepartureWhy::Law:
            return QStringLiteral("law");
        case DepartureWhy::Crew:
            return QStringLiteral("size of the crew");
        case DepartureWhy::Material:
            return QStringLiteral("material no longer to be had");
        case DepartureWhy::Cost:
            return QStringLiteral("cost");
        case DepartureWhy::Durability:
            return QStringLiteral("durability");
        case DepartureWhy::Access:
            return QStringLiteral("access");
        case DepartureWhy::Other:
            break;
    }
    return QStringLiteral("other");
}

QString quantityWords(DimensionQuantity q) {
    return QString::fromUtf8(nameOf(q).data(), qsizetype(nameOf(q).size()));
}

QString particularKindWords(ParticularKind kind) {
    return QString::fromUtf8(nameOf(kind).data(), qsizetype(nameOf(kind).size()));
}

QString queryStateWords(QueryState state) {
    switch (state) {
        case QueryState::Open:
            return QStringLiteral("open");
        case QueryState::Answered:
            return QStringLiteral("answered");
        case QueryState::Settled:
            break;
    }
    return QStringLiteral("settled");
}

QString roleWords(Role role) {
    return QString::fromUtf8(nameOf(role).data(), qsizetype(nameOf(role).size()));
}

QString findingName(const std::string& kind) {
    static const std::map<std::string, const char*> kNames{
        {"conflict", "Readings in conflict"},
        {"loop-open", "A sum that does not close"},
        {"circular", "Evidence runs in a circle"},
        {"rests-on-guess", "Rests on a guess"},
        {"limits-exclude", "Outside its limits"},
        {"likely-mistake", "A likely mistake"},
        {"echoes-disagree", "Copies disagree"},
        {"outside-readings", "Outside all its readings"},
        {"file-missing", "An original is missing"},
        {"file-altered", "An original has changed"},
        {"journal-broken", "The journal is broken"},
        {"slip-moved", "A value handed out has moved"},
        {"undetermined", "Cannot be worked out"},
        {"unscaled", "A page without a scale"},
        {"unsupported-reference", "A known length without support"},
        {"pulled-by-guess", "Leans on us"},
        {"particular-disagree", "Sources disagree"},
        {"ruling-stale", "Evidence moved since the ruling"},
        {"ruling-outside", "Ruled outside its evidence"},
        {"tolerance-finer", "Wanted finer than the evidence"},
        {"off-plane", "Nearer or farther than its scale"},
        {"beyond-reference", "Measured far beyond its known length"},
        {"unequal-stretch", "Paper stretched unequally"},
        {"other-state", "Evidence of another state"},
        {"proposal-evidence", "A proposal used as if built"},
        {"altered-part", "An altered part"},
        {"anachronism", "Later than what it is said to show"},
        {"double-correction", "Corrected twice"},
        {"no-reason", "No reason given"},
        {"departure-unapproved", "A departure without approval"},
        {"single-origin", "One origin"},
        {"long-chain", "A long run from mark to size"},
        {"released-early", "Let out early"},
        {"default-correction", "A default decides"},
        {"open-query", "An open query"},
        {"single-reading", "One reading only"},
        {"echo", "An echo, not counted twice"},
        {"departure", "Left the original"},
        {"grade-lowered", "Grade set lower"}};
    const auto it = kNames.find(kind);
    return it == kNames.end() ? shown(kind) : QString::fromUtf8(it->second);
}

namespace {

QDate dayOf(const std::string& date) {
    return QDate::fromString(QString::fromStdString(date.substr(0, 10)), Qt::ISODate);
}

}  // namespace

QString dateWords(const std::string& date) {
    static const char* const kMonths[] = {"January",   "February", "March",    "April",
                                          "May",       "June",     "July",     "August",
                                          "September", "October",  "November", "December"};
    const QDate day = dayOf(date);
    const bool plain = date.size() == 10 || (date.size() > 10 && date[10] == 'T');
    if (!day.isValid() || !plain) return shown(date);
    // Never the user's locale: a report is English on every machine.
    return QStringLiteral("%1 %2 %3")
        .arg(QString::number(day.day()), QString::fromUtf8(kMonths[day.month() - 1]),
             QString::number(day.year()));
}

QString ageWords(const std::string& from, const std::string& to) {
    const QDate a = dayOf(from);
    const QDate b = dayOf(to);
    if (!a.isValid() || !b.isValid() || b < a) return {};
    const qint64 days = a.daysTo(b);
    const auto many = [](qint64 n, const char* one) {
        return QStringLiteral("%1 %2%3").arg(QString::number(n), QString::fromUtf8(one),
                                             n == 1 ? QString() : QStringLiteral("s"));
    };
    if (days < 62) return many(days, "day");
    int months = (b.year() - a.year()) * 12 + b.month() - a.month();
    if (b.day() < a.day()) --months;
    return months < 24 ? many(months, "month") : many(months / 12, "year");
}

Text sourceShort(const RegisterIndex& index, const Source& source) {
    Text words;
    words.link(index.code(source.id.text), index.anchor(source.id.text));
    QString where;
    if (source.holder) where += shown(*source.holder);
    if (source.callNumber)
        where += (where.isEmpty() ? QString() : QStringLiteral(", ")) + shown(*source.callNumber);
    if (!where.isEmpty()) words.add(u' ' + where);
    return words;
}

Text sourceWords(const RegisterIndex& index, const Source& source) {
    Text words;
    words.link(index.code(source.id.text), index.anchor(source.id.text));
    words.add(u' ' + shown(source.title));
    if (source.holder) words.add(QStringLiteral(", ") + shown(*source.holder));
    if (source.callNumber) words.add(QStringLiteral(", ") + shown(*source.callNumber));
    return words;
}

QString stateWords(const State& state) {
    QString words = shown(state.label);
    if (state.from && state.to)
        words += QStringLiteral(" (%1 to %2)").arg(dateWords(*state.from), dateWords(*state.to));
    else if (state.from)
        words += QStringLiteral(" (from %1)").arg(dateWords(*state.from));
    else if (state.to)
        words += QStringLiteral(" (until %1)").arg(dateWords(*state.to));
    return words;
}

QString formulaWords(const RegisterIndex& index, const std::string& formula) {
    std::map<QString, QString> nameOfCode;
    for (const Dimension& dimension : index.reg.dimensions)
        nameOfCode.emplace(index.code(dimension.id.text), shown(dimension.name));
    static const QRegularExpression kWord(QStringLiteral("[A-Za-z_][A-Za-z0-9_]*"));
    const QString text = shown(formula);
    QString out;
    qsizetype done = 0;
    for (auto it = kWord.globalMatch(text); it.hasNext();) {
        const auto match = it.next();
        out += text.mid(done, match.capturedStart() - done);
        const auto name = nameOfCode.find(match.captured());
        out += name == nameOfCode.end() ? match.captured() : name->second;
        done = match.capturedEnd();
    }
    out += text.mid(done);
    out.replace(QStringLiteral("*"), QStringLiteral(" × "));
    out.replace(QStringLiteral("<="), QStringLiteral("≤"));
    out.replace(QStringLiteral(">="), QStringLiteral("≥"));
    return out.simplified();
}

QString cautionWords() {
    return QStringLiteral(
        "Safety-critical. This register says how well a size is known, not whether it is strong "
        "enough. Strength and fitness for use are for licensed practice and local rules.");
}

}  // namespace app::report
