#include "app/session/known_confines.h"

#include "app/session/relation_says.h"
#include "app/session/result_of.h"
#include "app/session/shown.h"
#include "evidence-core/judgement/thread.h"
#include "evidence-core/quantity/unit.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

#include <algorithm>
#include <cctype>

namespace app::session {

namespace judgement = evidence::judgement;
namespace quantity = evidence::quantity;
namespace record = evidence::record;

namespace {

constexpr auto kScreen = quantity::Typesetting::Typographic;

template <class Record>
std::string withCode(const Record& record) {
    return record.code ? record.name + " (" + *record.code + ")" : record.name;
}

template <class Record>
KnownSize named(const Record& record) {
    return {record::any(record.id),
            record.code.value_or(""),
            record.name,
            record.component.value_or(""),
            "not known",
            record::Grade::Blank};
}

KnownSize sizeOf(const record::Dimension& dimension, const record::Register& reg,
                 const judgement::Analysis& analysis) {
    auto known = named(dimension);
    if (const auto* result = resultOfDimension(analysis, dimension.id.text)) {
        known.size = shown(*result, dimension, reg.archive, kScreen).text();
        known.grade = result->grade;
    }
    return known;
}

KnownSize sizeOf(const record::Particular& particular, const record::Register&,
                 const judgement::Analysis& analysis) {
    auto known = named(particular);
    if (const auto* result = resultOfParticular(analysis, particular.id.text)) {
        known.size = result->value.value_or(known.size);
        known.grade = result->grade;
    }
    return known;
}

bool holds(const std::vector<KnownSize>& sizes, const std::string& id) {
    return std::ranges::any_of(sizes, [&](const KnownSize& known) { return known.id.text == id; });
}

bool sameKind(const record::Dimension& a, const record::Dimension& b) {
    return a.quantity == b.quantity;
}
bool sameKind(const record::Particular& a, const record::Particular& b) {
    return a.kind == b.kind;
}

void addRelations(const record::Dimension& dimension, const record::Register& reg,
                  const judgement::Analysis& analysis, KnownConfines& known) {
    for (const auto& relation : reg.relations) {
        if (relation.setAside) continue;
        const auto told = whatRelationSays(relation, dimension, reg, analysis);
        if (!told) continue;
        known.relations.push_back({relation.id, told->words, relation.formula,
                                   relation.reason.value_or(""), told->says, told->size});
        for (const auto& id : told->others)
            if (const auto* other = record::find(reg, id);
                other && !holds(known.neighbours, id.text))
                known.neighbours.push_back(sizeOf(*other, reg, analysis));
    }
}

/// The same thing elsewhere, and the rest of its component; `table` is the record's own.
template <class Record>
void addSizes(const Record& record, const std::vector<Record>& table, const record::Register& reg,
              const judgement::Analysis& analysis, KnownConfines& known) {
    const auto stem = nameStem(record.name);
    for (const auto& other : table) {
        if (other.id == record.id || other.setAside) continue;
        if (sameKind(other, record) && nameStem(other.name) == stem)
            known.analogous.push_back(sizeOf(other, reg, analysis));
        else if (record.component && other.component == record.component &&
                 !holds(known.neighbours, other.id.text))
            known.neighbours.push_back(sizeOf(other, reg, analysis));
    }
}

void addEvidence(const record::AnyId& on, const record::Register& reg,
                 const judgement::Analysis& analysis, KnownConfines& known) {
    const auto thread = judgement::threadOf(on, reg, analysis);
    for (const auto& reading : reg.readings) {
        if (reading.of != on || reading.setAside) continue;
        const auto node =
            std::ranges::find(thread.nodes, reading.id.text, &judgement::ThreadNode::id);
        if (node == thread.nodes.end()) continue;
        auto& list = reading.basis == record::Basis::Limit ? known.limits : known.otherEvidence;
        list.push_back({reading.id, node->title, reading.reason.value_or("")});
    }
}

template <class Record>
void addItself(const Record& record, const record::Register& reg,
               const judgement::Analysis& analysis, KnownConfines& known) {
    const auto now = sizeOf(record, reg, analysis);
    known.name = withCode(record);
    known.component = now.component;
    known.size = now.size;
    known.grade = now.grade;
}

}  // namespace

std::string nameStem(const std::string& name) {
    std::string stem;
    bool word = false;
    for (const char c : name) {
        const auto byte = static_cast<unsigned char>(c);
        // Letters outside ASCII are letters too: their bytes stay as they are.
        if (std::isalpha(byte) != 0 || byte >= 0x80) {
            if (!word && !stem.empty()) stem += ' ';
            stem += static_cast<char>(std::tolower(byte));
            word = true;
        } else {
            word = false;
        }
    }
    return stem;
}

KnownConfines knownConfines(const record::AnyId& on, const record::Register& reg,
                            const judgement::Analysis& analysis) {
    KnownConfines known;
    const auto* dimension = record::find(reg, record::DimensionId{on.text});
    const auto* particular = record::find(reg, record::ParticularId{on.text});
    if (dimension) {
        addItself(*dimension, reg, analysis, known);
        const auto unit = record::unitOf(*dimension);
        if (unit != quantity::Unit::One) known.unit = std::string(nameOf(unit));
        if (const auto* result = resultOfDimension(analysis, on.text))
            known.gradeWhy = result->gradeWhy;
        addRelations(*dimension, reg, analysis, known);
        addSizes(*dimension, reg.dimensions, reg, analysis, known);
    } else if (particular) {
        known.inWords = true;
        addItself(*particular, reg, analysis, known);
        if (const auto* result = resultOfParticular(analysis, on.text))
            known.gradeWhy = result->gradeWhy;
        addSizes(*particular, reg.particulars, reg, analysis, known);
    }
    addEvidence(on, reg, analysis, known);
    return known;
}

}  // namespace app::session
