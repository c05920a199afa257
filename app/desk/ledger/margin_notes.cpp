#include "app/desk/ledger/margin_notes.h"

#include "app/session/chosen.h"

#include <QCoreApplication>

#include <algorithm>
#include <unordered_set>

namespace app::desk::ledger {

using evidence::judgement::Severity;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Ledger)
};

}  // namespace

MarginNotes::MarginNotes(const evidence::record::Register& reg,
                         const evidence::judgement::Analysis& analysis) {
    std::unordered_set<std::string> sizes;
    for (const auto& dimension : reg.dimensions) sizes.insert(dimension.id.text);
    for (const auto& particular : reg.particulars) sizes.insert(particular.id.text);
    for (std::size_t i = 0; i < analysis.findings.size(); ++i) {
        const auto& about = analysis.findings[i].on;
        std::unordered_set<std::string> named;
        for (const auto& id : about)
            if (sizes.contains(id.text)) named.insert(id.text);
        if (named.empty() && !about.empty()) {
            const auto owner = session::allAbout(about.front(), reg).size;
            if (!owner.empty()) named.insert(owner.text);
        }
        for (const auto& id : named) m_beside[id].push_back(i);
    }
    // The analysis gives the graver first; what is acknowledged makes room.
    for (auto& [id, notes] : m_beside)
        std::stable_partition(notes.begin(), notes.end(),
                              [&](std::size_t i) { return !analysis.findings[i].acknowledged; });
}

const std::vector<std::size_t>& MarginNotes::beside(const evidence::record::AnyId& size) const {
    static const std::vector<std::size_t> kNone;
    const auto found = m_beside.find(size.text);
    return found == m_beside.end() ? kNone : found->second;
}

QString besideItsValue(const QString& sentence, const QString& name) {
    if (!sentence.startsWith(name)) return sentence;
    QString rest = sentence.mid(name.size());
    if (rest.startsWith(QLatin1String(" ("))) {  // its code
        const auto end = rest.indexOf(QLatin1Char(')'));
        if (end > 0) rest = rest.mid(end + 1);
    }
    if (rest.startsWith(QLatin1String(": "))) {
        rest = rest.mid(2);
        return rest.left(1).toUpper() + rest.mid(1);
    }
    const bool joined =
        rest.startsWith(QLatin1String(" and ")) || rest.startsWith(QLatin1String(" or "));
    if (!rest.startsWith(QLatin1Char(' ')) || joined) return sentence;
    return Words::tr("It%1", "then a verb: It rests on a guess").arg(rest);
}

QString gatheringName(Severity severity) {
    switch (severity) {
        case Severity::High:
            return Words::tr("Settle first");
        case Severity::Medium:
            return Words::tr("Soon");
        case Severity::Low:
            return Words::tr("When you can");
        case Severity::Note:
            return Words::tr("Worth knowing");
    }
    return {};
}

}  // namespace app::desk::ledger
