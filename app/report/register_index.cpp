#include "app/report/register_index.h"

#include "app/report/document.h"

#include <algorithm>
#include <functional>

namespace app::report {

using namespace evidence::record;
using namespace evidence::judgement;

namespace {

template <class Map, class Records>
void fill(Map& map, const Records& records) {
    for (const auto& record : records) map.emplace(record.id.text, &record);
}

template <class Map>
auto find(const Map& map, const std::string& id) {
    const auto it = map.find(id);
    return it == map.end() ? nullptr : it->second;
}

}  // namespace

RegisterIndex::RegisterIndex(const Register& r, const Analysis& a) : reg(r), analysis(a) {
    fill(m_sources, reg.sources);
    for (const Source& source : reg.sources)
        for (const File& file : source.files) {
            m_files.emplace(file.id.text, &file);
            m_sourceOfFile.emplace(file.id.text, &source);
        }
    fill(m_marks, reg.marks);
    fill(m_frames, reg.frames);
    fill(m_dimensions, reg.dimensions);
    fill(m_particulars, reg.particulars);
    fill(m_readings, reg.readings);
    fill(m_relations, reg.relations);
    fill(m_states, reg.states);
    fill(m_people, reg.people);
    fill(m_results, analysis.dimensions);
    fill(m_particularResults, analysis.particulars);
    fill(m_frameResults, analysis.frames);
    fill(m_relationResults, analysis.relations);
    for (const Reading& reading : reg.readings) m_readingsOf[reading.of.text].push_back(&reading);
    for (const Finding& finding : analysis.findings)
        for (const AnyId& id : finding.on) {
            auto& list = m_findingsOn[id.text];
            if (list.empty() || list.back() != &finding) list.push_back(&finding);
        }
    giveCodes();
    joinOrigins();
}

void RegisterIndex::giveCodes() {
    const auto number = [this](QLatin1Char letter, const auto& records) {
        int n = 0;
        for (const auto& record : records)
            m_codes.emplace(record.id.text, QString(letter) + QString::number(++n));
    };
    const auto own = [this](QLatin1Char letter, const auto& records) {
        int n = 0;
        for (const auto& record : records) {
            ++n;
            m_codes.emplace(record.id.text, record.code ? shown(*record.code)
                                                        : QString(letter) + QString::number(n));
        }
    };
    // Letters of docs/domain: one per kind of record.
    own(QLatin1Char('S'), reg.sources);
    own(QLatin1Char('D'), reg.dimensions);
    own(QLatin1Char('P'), reg.particulars);
    number(QLatin1Char('W'), reg.states);
    number(QLatin1Char('N'), reg.enquiries);
    number(QLatin1Char('M'), reg.marks);
    number(QLatin1Char('J'), reg.frames);
    number(QLatin1Char('R'), reg.readings);
    number(QLatin1Char('E'), reg.sharedErrors);
    number(QLatin1Char('L'), reg.relations);
    number(QLatin1Char('K'), reg.rulings);
    number(QLatin1Char('X'), reg.departures);
    number(QLatin1Char('V'), reg.slips);
    number(QLatin1Char('A'), reg.asBuilt);
    number(QLatin1Char('Q'), reg.queries);
    number(QLatin1Char('Y'), reg.signoffs);
    number(QLatin1Char('G'), reg.lowered);
    number(QLatin1Char('Z'), reg.acknowledgements);
    number(QLatin1Char('I'), reg.issued);
}

void RegisterIndex::joinOrigins() {
    std::unordered_map<std::string, std::string> parent;
    for (const Source& source : reg.sources) parent[source.id.text] = source.id.text;
    const std::function<std::string(const std::string&)> root = [&](const std::string& id) {
        std::string at = id;
        while (parent[at] != at) at = parent[at];
        return at;
    };
    const auto join = [&](const std::string& a, const std::string& b) {
        if (parent.contains(a) && parent.contains(b)) parent[root(a)] = root(b);
    };
    for (const Source& source : reg.sources) {
        for (const Descent& descent : source.descends) join(source.id.text, descent.from.text);
        if (source.replaces) join(source.id.text, source.replaces->text);
    }
    std::map<std::string, int> numberOf;
    for (const Source& source : reg.sources) {
        const auto [it, fresh] =
            numberOf.emplace(root(source.id.text), static_cast<int>(numberOf.size()) + 1);
        m_groups[source.id.text] = it->second;
    }
}

const Source* RegisterIndex::source(const std::string& id) const {
    return find(m_sources, id);
}
const Source* RegisterIndex::sourceOfFile(const std::string& id) const {
    return find(m_sourceOfFile, id);
}
const File* RegisterIndex::file(const std::string& id) const {
    return find(m_files, id);
}
const Mark* RegisterIndex::mark(const std::string& id) const {
    return find(m_marks, id);
}
const Frame* RegisterIndex::frame(const std::string& id) const {
    return find(m_frames, id);
}
const Dimension* RegisterIndex::dimension(const std::string& id) const {
    return find(m_dimensions, id);
}
const Particular* RegisterIndex::particular(const std::string& id) const {
    return find(m_particulars, id);
}
const Reading* RegisterIndex::reading(const std::string& id) const {
    return find(m_readings, id);
}
const Relation* RegisterIndex::relation(const std::string& id) const {
    return find(m_relations, id);
}
const State* RegisterIndex::state(const std::string& id) const {
    return find(m_states, id);
}
const DimensionResult* RegisterIndex::result(const std::string& id) const {
    return find(m_results, id);
}
const ParticularResult* RegisterIndex::particularResult(const std::string& id) const {
    return find(m_particularResults, id);
}
const FrameResult* RegisterIndex::frameResult(const std::string& id) const {
    return find(m_frameResults, id);
}
const RelationResult* RegisterIndex::relationResult(const std::string& id) const {
    return find(m_relationResults, id);
}

const Source* RegisterIndex::sourceOfReading(const Reading& reading) const {
    if (reading.source) return source(reading.source->text);
    const Mark* placed = nullptr;
    if (reading.mark) placed = mark(reading.mark->text);
    if (placed == nullptr && reading.between) placed = mark((*reading.between)[0].text);
    return placed == nullptr ? nullptr : sourceOfFile(placed->file.text);
}

std::vector<const Reading*> RegisterIndex::readingsOf(const std::string& id) const {
    const auto it = m_readingsOf.find(id);
    return it == m_readingsOf.end() ? std::vector<const Reading*>{} : it->second;
}

std::vector<const Ruling*> RegisterIndex::rulingsOf(const std::string& id) const {
    auto found = on(reg.rulings, id);
    std::stable_sort(found.begin(), found.end(),
                     [](const Ruling* a, const Ruling* b) { return a->at > b->at; });
    const auto superseded = [&](const Ruling* ruling) {
        return std::any_of(found.begin(), found.end(), [&](const Ruling* other) {
            return other->supersedes && *other->supersedes == ruling->id;
        });
    };
    std::stable_partition(found.begin(), found.end(),
                          [&](const Ruling* ruling) { return !superseded(ruling); });
    return found;
}

std::vector<const Finding*> RegisterIndex::findingsOn(const std::string& id) const {
    const auto it = m_findingsOn.find(id);
    return it == m_findingsOn.end() ? std::vector<const Finding*>{} : it->second;
}

QString RegisterIndex::personName(const std::string& id) const {
    const Person* person = find(m_people, id);
    return person == nullptr ? shown(id) : shown(person->name);
}

QString RegisterIndex::code(const std::string& id) const {
    const auto it = m_codes.find(id);
    if (it != m_codes.end()) return it->second;
    // A known length of a scale: "J2.1".
    if (const auto slash = id.rfind('/'); slash != std::string::npos) {
        const auto scale = m_codes.find(id.substr(0, slash));
        if (scale != m_codes.end())
            return scale->second + u'.' +
                   QString::number(QString::fromStdString(id.substr(slash + 1)).toInt() + 1);
    }
    return shown(id);
}

QString RegisterIndex::label(const std::string& id) const {
    if (const Source* s = source(id)) return code(id) + u' ' + shown(s->title);
    if (const Dimension* d = dimension(id)) return code(id) + u' ' + shown(d->name);
    if (const Particular* p = particular(id)) return code(id) + u' ' + shown(p->name);
    if (frame(id) != nullptr) return QStringLiteral("scale ") + code(id);
    if (const Reading* r = reading(id))
        return QStringLiteral("reading %1 of %2").arg(code(id), label(r->of.text));
    if (relation(id) != nullptr) return QStringLiteral("relation ") + code(id);
    if (mark(id) != nullptr) return QStringLiteral("mark ") + code(id);
    if (const auto slash = id.rfind('/'); slash != std::string::npos)
        if (frame(id.substr(0, slash)) != nullptr) {
            const int n = QString::fromStdString(id.substr(slash + 1)).toInt() + 1;
            return QStringLiteral("known length %1 of scale %2")
                .arg(QString::number(n), code(id.substr(0, slash)));
        }
    return code(id);
}

QString RegisterIndex::anchor(const std::string& id) const {
    // Ids are anybody's text; anchors are made of what every reader of HTML and PDF takes.
    static const QString kPlain =
        QStringLiteral("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
    QString name = QStringLiteral("r-");
    for (const char byte : id) {
        const QChar c = QLatin1Char(byte);
        if (kPlain.contains(c))
            name += c;
        else
            name += QStringLiteral("_%1").arg(uint(static_cast<unsigned char>(byte)), 2, 16,
                                              QLatin1Char('0'));
    }
    return name;
}

int RegisterIndex::originGroup(const std::string& sourceId) const {
    const auto it = m_groups.find(sourceId);
    return it == m_groups.end() ? 0 : it->second;
}

std::vector<const Source*> RegisterIndex::group(int number) const {
    std::vector<const Source*> members;
    for (const Source& source : reg.sources)
        if (originGroup(source.id.text) == number) members.push_back(&source);
    return members;
}

}  // namespace app::report
