#include "app/session/what_leans.h"

#include "evidence-core/network/formula.h"
#include "evidence-core/network/register_index.h"

#include <algorithm>
#include <set>

namespace app::session {

namespace network = evidence::network;
namespace record = evidence::record;

namespace {

/// Asks of each piece of evidence whether it comes through one record.
class Through {
  public:
    Through(const record::AnyId& id, const record::Register& reg) : m_id(id.text), m_index(reg) {}

    [[nodiscard]] bool reading(const record::Reading& reading) const {
        if (is(reading.id) || is(reading.source) || sharedErrorOn(reading.id.text)) return true;
        if (reading.mark && mark(*reading.mark)) return true;
        if (reading.between && (mark(reading.between->at(0)) || mark(reading.between->at(1))))
            return true;
        return reading.frame && frame(*reading.frame);
    }

    [[nodiscard]] bool relation(const record::Relation& relation) const {
        return is(relation.id) || is(relation.source) || sharedErrorOn(relation.id.text);
    }

  private:
    template <class Tag>
    [[nodiscard]] bool is(const record::Id<Tag>& id) const {
        return id.text == m_id;
    }
    template <class Tag>
    [[nodiscard]] bool is(const std::optional<record::Id<Tag>>& id) const {
        return id && id->text == m_id;
    }
    [[nodiscard]] bool file(const record::FileId& id) const {
        const auto* source = m_index.sourceOfFile(id);
        return source && is(source->id);
    }
    [[nodiscard]] bool mark(const record::MarkId& id) const {
        const auto* mark = m_index.mark(id);
        return mark && (is(mark->id) || file(mark->file));
    }
    [[nodiscard]] bool frame(const record::FrameId& id) const {
        const auto* frame = m_index.frame(id);
        if (!frame) return false;
        return is(frame->id) || file(frame->file) ||
               std::ranges::any_of(frame->references, [&](const record::Reference& reference) {
                   return mark(reference.mark) || is(reference.length.source);
               });
    }
    [[nodiscard]] bool sharedErrorOn(const std::string& record) const {
        return std::ranges::any_of(m_index.reg().sharedErrors, [&](const auto& error) {
            return (is(error.id) || is(error.source)) &&
                   std::ranges::any_of(error.on, [&](const record::SharedErrorUse& use) {
                       return use.record.text == record;
                   });
        });
    }

    std::string m_id;
    network::RegisterIndex m_index;
};

std::vector<std::string> sizesIn(const record::Relation& relation, const record::Register& reg) {
    const network::RegisterIndex index(reg);
    const auto formula = network::parseFormula(
        relation.formula, [&](std::string_view code) -> std::optional<std::string> {
            const auto at = index.dimensionNamed(code);
            return at ? std::optional(reg.dimensions[*at].id.text) : std::nullopt;
        });
    return formula ? formula->names : std::vector<std::string>{};
}

}  // namespace

std::vector<std::string> sizesLeaningOn(const record::AnyId& id, const record::Register& reg) {
    const Through through(id, reg);
    std::set<std::string> touched;
    for (const auto& reading : reg.readings)
        if (!reading.setAside && through.reading(reading)) touched.insert(reading.of.text);
    for (const auto& relation : reg.relations)
        if (!relation.setAside && through.relation(relation))
            for (const auto& size : sizesIn(relation, reg)) touched.insert(size);
    std::vector<std::string> names;
    const auto add = [&](const auto& table) {
        for (const auto& record : table)
            if (!record.setAside && touched.contains(record.id.text)) names.push_back(record.name);
    };
    add(reg.dimensions);
    add(reg.particulars);
    return names;
}

}  // namespace app::session
