#include "app/desk/ledger/ledger_entry.h"

#include "app/desk/ledger/margin_notes.h"
#include "app/report/caution.h"
#include "app/report/document.h"
#include "app/report/register_index.h"
#include "app/report/value_words.h"
#include "app/session/shown.h"

#include <QCoreApplication>
#include <QStringList>

#include <algorithm>
#include <set>

namespace app::desk::ledger {

namespace record = evidence::record;
namespace judgement = evidence::judgement;
namespace quantity = evidence::quantity;
using judgement::Severity;

namespace {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Ledger)
};

constexpr auto kType = quantity::Typesetting::Typographic;

class Reader {
  public:
    explicit Reader(const Judged& judged)
        : m_judged(judged),
          m_index(judged.snapshot->reg, judged.analysis),
          m_notes(judged.snapshot->reg, judged.analysis) {}

    std::unique_ptr<LedgerNode> read() {
        auto root = std::make_unique<LedgerNode>();
        for (const auto& result : m_judged.analysis.dimensions)
            if (const auto* dimension = m_index.dimension(result.id.text))
                add(*root, entryOf(*dimension, result), dimension->component);
        for (const auto& result : m_judged.analysis.particulars)
            if (const auto* particular = m_index.particular(result.id.text))
                add(*root, entryOf(*particular, result), particular->component);
        settle(*root);
        return root;
    }

  private:
    template <class Record>
    LedgerEntry commonOf(const Record& held, EntryKind kind) const {
        LedgerEntry entry;
        entry.kind = kind;
        entry.id = record::any(held.id);
        entry.code = m_index.code(held.id.text);
        entry.name = report::shown(held.name);
        if (held.note) entry.about = report::shown(*held.note);
        entry.setAside = held.setAside.has_value();
        if (held.setAside)
            entry.about = Words::tr("Set aside: %1").arg(report::shown(*held.setAside));
        entry.notes = m_notes.beside(entry.id);
        return entry;
    }

    LedgerEntry entryOf(const record::Dimension& dimension,
                        const judgement::DimensionResult& result) const {
        LedgerEntry entry = commonOf(dimension, EntryKind::Dimension);
        const auto& archive = m_index.reg.archive;
        const auto shown = session::shown(result, dimension, archive, kType);
        entry.value = QString::fromStdString(shown.value);
        entry.spread = QString::fromStdString(shown.spread);
        if (!shown.unit.empty()) {
            QString& last = entry.spread.isEmpty() ? entry.value : entry.spread;
            if (shown.unit != "°") last += QChar(0x00A0);
            last += QString::fromStdString(shown.unit);
        }
        entry.rounding = QString::fromStdString(shown.rounding);
        if (const auto interval = report::intervalOf(result, dimension)) {
            entry.interval = report::between(*interval, interval->unit);
            entry.bar = report::figure::IntervalRow{
                {},           interval->value,    interval->low, interval->high,
                result.grade, result.restsOnGuess};
        }
        entry.tolerance = dimension.tolerance;
        if (dimension.tolerance)
            entry.wanted = QString::fromStdString(quantity::allowance(
                quantity::toCanonical(*dimension.tolerance, record::unitOf(dimension)),
                record::measureOf(dimension.quantity), session::displayOf(archive, kType)));
        entry.grade = result.grade;
        entry.gradeWhy = report::shown(result.gradeWhy);
        entry.restsOnGuess = result.restsOnGuess;
        switch (report::cautionOn(dimension, result)) {
            case report::Caution::None:
                break;
            case report::Caution::RestsOnGuess:
                entry.caution = Words::tr("Safety-critical, on a guess.");
                break;
            case report::Caution::InConflict:
                entry.caution = Words::tr("Safety-critical, in conflict.");
                break;
        }
        entry.margin = marginOf(entry);
        return entry;
    }

    LedgerEntry entryOf(const record::Particular& particular,
                        const judgement::ParticularResult& result) const {
        LedgerEntry entry = commonOf(particular, EntryKind::Particular);
        entry.value = result.value ? report::shown(*result.value) : Words::tr("not known");
        entry.grade = result.grade;
        entry.gradeWhy = report::shown(result.gradeWhy);
        entry.margin = marginOf(entry);
        return entry;
    }

    Margin marginOf(const LedgerEntry& entry) const {
        const auto& findings = m_judged.analysis.findings;
        std::vector<const judgement::Finding*> open;
        for (const std::size_t i : entry.notes)
            if (!findings[i].acknowledged) open.push_back(&findings[i]);
        Margin margin;
        margin.more = static_cast<int>(open.size());
        if (!entry.caution.isEmpty()) {
            margin.words = entry.caution;
            margin.attention = true;
        } else if (!open.empty()) {
            margin.words = besideItsValue(report::shown(open.front()->text), entry.name);
            margin.attention = open.front()->severity <= Severity::Medium;
            --margin.more;
        } else if (!entry.notes.empty()) {
            margin.words = entry.notes.size() == 1
                               ? Words::tr("1 note acknowledged")
                               : Words::tr("%1 notes acknowledged").arg(entry.notes.size());
        }
        return margin;
    }

    static LedgerNode& append(LedgerNode& parent, LedgerEntry entry) {
        auto made = std::make_unique<LedgerNode>();
        made->entry = std::move(entry);
        made->parent = &parent;
        parent.children.push_back(std::move(made));
        return *parent.children.back();
    }

    static LedgerNode& componentOf(LedgerNode& root, const QString& path) {
        LedgerNode* at = &root;
        QStringList walked;
        for (const QString& part : path.split(QLatin1Char('/'), Qt::SkipEmptyParts)) {
            walked << part;
            const auto found = std::ranges::find_if(at->children, [&](const auto& child) {
                return child->entry.kind == EntryKind::Component && child->entry.name == part;
            });
            if (found != at->children.end()) {
                at = found->get();
                continue;
            }
            LedgerEntry component;
            component.name = part;
            component.path = walked.join(QLatin1Char('/'));
            at = &append(*at, std::move(component));
        }
        return *at;
    }

    static void add(LedgerNode& root, LedgerEntry entry,
                    const std::optional<std::string>& component) {
        LedgerNode& parent = componentOf(root, component ? report::shown(*component) : QString());
        entry.path = parent.entry.path;
        append(parent, std::move(entry));
    }

    /// Own sizes before sub-components; counts what is to settle first below each component.
    std::set<std::size_t> settle(LedgerNode& node) const {
        // Not the ranges' one: clang 14 cannot read what it returns.
        std::stable_partition(node.children.begin(), node.children.end(), [](const auto& child) {
            return child->entry.kind != EntryKind::Component;
        });
        std::set<std::size_t> first;
        for (std::size_t i = 0; i < node.children.size(); ++i) {
            LedgerNode& child = *node.children[i];
            child.row = static_cast<int>(i);
            if (child.entry.kind == EntryKind::Component)
                first.merge(settle(child));
            else
                for (const std::size_t note : child.entry.notes)
                    if (const auto& finding = m_judged.analysis.findings[note];
                        finding.severity == Severity::High && !finding.acknowledged)
                        first.insert(note);
        }
        if (node.parent && !first.empty())
            node.entry.margin = {Words::tr("%1 to settle first").arg(first.size()), 0, true};
        return first;
    }

    const Judged& m_judged;
    report::RegisterIndex m_index;
    MarginNotes m_notes;
};

}  // namespace

std::unique_ptr<LedgerNode> readLedger(const Judged& judged) {
    return Reader(judged).read();
}

}  // namespace app::desk::ledger
