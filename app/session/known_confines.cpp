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

std::string withCode(const record::Dimension& dimension) {
    return dimension.code ? dimension.name + " (" + *dimension.code + ")" : dimension.name;
}

KnownSize sizeOf(const record::Dimension& dimension, const record::Register& reg,
                 const judgement::Analysis& analysis) {
    KnownSize known{dimension.id,   dimension.code.value_or(""),
                    dimension.name, dimension.component.value_or(""),
                    "not known",    record::Grade::Blank};
    if (const auto* result = resultOfDimension(analysis, dimension.id.text)) {
        known.size = shown(*result, dimension, reg.archive, kScreen).text();
        known.grade = result->grade;
    }
    return known;
}

bool holds(const std::vector<KnownSize>& sizes, const record::DimensionId& id) {
    return std::ranges::any_of(sizes, [&](const KnownSize& known) { return known.id == id; });
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
            if (const auto* other = record::find(reg, id); other && !holds(known.neighbours, id))
                known.neighbours.push_back(sizeOf(*other, reg, analysis));
    }
}

void addSizes(const record::Dimension& dimension, const record::Register& reg,
              const judgement::Analysis& analysis, KnownConfines& known) {
    const auto stem = nameStem(dimension.name);
    for (const auto& other : reg.dimensions) {
        if (other.id == dimension.id || other.setAside) continue;
        if (other.quantity == dimension.quantity && nameStem(other.name) == stem)
            known.analogous.push_back(sizeOf(other, reg, analysis));
        else if (dimension.component && other.component == dimension.component &&
                 !holds(known.neighbours, other.id))
            known.neighbours.push_back(sizeOf(other, reg, analysis));
    }
}

void addEvidence(const record::Dimension& dimension, const record::Register& reg,
                 const judgement::Analysis& analysis, KnownConfines& known) {
    const auto thread = judgement::threadOf(record::any(dimension.id), reg, analysis);
    for (const auto& reading : reg.readings) {
        if (reading.of.text != dimension.id.text || reading.setAside) continue;
        const auto node =
            std::ranges::find(thread.nodes, reading.id.text, &judgement::ThreadNode::id);
        if (node == thread.nodes.end()) continue;
        auto& list = reading.basis == record::Basis::Limit ? known.limits : known.otherEvidence;
        list.push_back({reading.id, node->title, reading.reason.value_or("")});
    }
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
    if (!dimension) return known;
    known.name = withCode(*dimension);
    known.component = dimension->component.value_or("");
    const auto unit = record::unitOf(*dimension);
    if (unit != quantity::Unit::One) known.unit = std::string(nameOf(unit));
    const auto size = sizeOf(*dimension, reg, analysis);
    known.size = size.size;
    known.grade = size.grade;
    if (const auto* result = resultOfDimension(analysis, on.text))
        known.gradeWhy = result->gradeWhy;
    addRelations(*dimension, reg, analysis, known);
    addEvidence(*dimension, reg, analysis, known);
    addSizes(*dimension, reg, analysis, known);
    return known;
}

}  // namespace app::session
