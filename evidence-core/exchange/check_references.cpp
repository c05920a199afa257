#include "evidence-core/exchange/register_check.h"
#include "evidence-core/record/references.h"

#include <fmt/format.h>

#include <charconv>
#include <set>

namespace evidence::exchange {

using record::Kind;

namespace {

bool isSizeOrFact(Kind kind) {
    return kind == Kind::Dimension || kind == Kind::Particular;
}

/// `g1/0`: the reference of that number, counted from 0, of a frame.
bool isReferencePart(const CheckContext& context, std::string_view text) {
    const auto slash = text.rfind('/');
    if (slash == std::string_view::npos) return false;
    const auto* entry = context.index.find(text.substr(0, slash));
    if (!entry || entry->kind != Kind::Frame) return false;
    const auto digits = text.substr(slash + 1);
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    return error == std::errc{} && end == digits.data() + digits.size() &&
           number < context.reg.frames[entry->position].references.size();
}

bool refuseMissing(const CheckContext& context, const std::string& id, std::string_view expected) {
    const auto* entry = context.index.find(id);
    return context.reader.refuseHere(
        Code::MissingTarget,
        entry
            ? fmt::format("\"{}\" is a {}; expected {}", id, record::nameOf(entry->kind), expected)
            : fmt::format("there is no record \"{}\"; expected {}", id, expected));
}

/// An id whose kind is not told by its type: by what stands in it, key by key.
template <class Record>
bool checkAnyId(const CheckContext& context, std::string_view key, const record::AnyId& id) {
    const auto* entry = context.index.find(id.text);
    if constexpr (std::is_same_v<Record, record::SharedError>) {
        if (entry && (entry->kind == Kind::Reading || entry->kind == Kind::Relation)) return true;
        if (!entry && isReferencePart(context, id.text)) return true;
        return refuseMissing(context, id.text, "a reading, a relation or a reference such as g1/0");
    } else {
        const bool anything = std::is_same_v<Record, record::Query> ||
                              std::is_same_v<Record, record::Acknowledgement> ||
                              key == "depends_on" || key == "affects";
        if (anything) {
            if (entry || isReferencePart(context, id.text)) return true;
            return refuseMissing(context, id.text, "the id of a record");
        }
        if (entry && isSizeOrFact(entry->kind)) return true;
        return refuseMissing(context, id.text, "a dimension or a particular");
    }
}

}  // namespace

template <class Record>
bool checkReferences(const CheckContext& context, const Record& record) {
    bool ok = true;
    record::forEachId(
        record, context.reader, [&]<class Tag>(std::string_view key, const record::Id<Tag>& id) {
            if (!ok || key == "id") return;
            if constexpr (std::is_same_v<record::Id<Tag>, record::AnyId>) {
                ok = checkAnyId<Record>(context, key, id);
            } else {
                constexpr Kind kKind = record::KindOf<record::Id<Tag>>;
                const auto* entry = context.index.find(id.text);
                if (!entry || entry->kind != kKind)
                    ok = refuseMissing(context, id.text,
                                       "the id of a " + std::string(record::nameOf(kKind)));
            }
        });
    return ok;
}

bool checkDescent(const CheckContext& context, const record::Source& source) {
    // Walks up from here; whoever meets this source again closes a ring.
    const auto parentsOf = [&](const record::Source& child, bool replaced) {
        std::vector<record::SourceId> parents;
        if (replaced && child.replaces) parents.push_back(*child.replaces);
        if (!replaced)
            for (const auto& descent : child.descends) parents.push_back(descent.from);
        return parents;
    };
    for (const bool replaced : {false, true}) {
        std::set<std::string> seen;
        std::vector<record::SourceId> open = parentsOf(source, replaced);
        while (!open.empty()) {
            const record::SourceId id = open.back();
            open.pop_back();
            if (id == source.id)
                return refuseAt(
                    context, replaced ? "replaces" : "descends", Code::WrongUse,
                    fmt::format("\"{}\" would come from itself; a source cannot", id.text));
            if (!seen.insert(id.text).second) continue;
            const auto* entry = context.index.find(id.text);
            if (!entry || entry->kind != Kind::Source) continue;
            for (auto& parent : parentsOf(context.reg.sources[entry->position], replaced))
                open.push_back(std::move(parent));
        }
    }
    return true;
}

template bool checkReferences(const CheckContext&, const record::Person&);
template bool checkReferences(const CheckContext&, const record::State&);
template bool checkReferences(const CheckContext&, const record::Enquiry&);
template bool checkReferences(const CheckContext&, const record::Source&);
template bool checkReferences(const CheckContext&, const record::Mark&);
template bool checkReferences(const CheckContext&, const record::Frame&);
template bool checkReferences(const CheckContext&, const record::Dimension&);
template bool checkReferences(const CheckContext&, const record::Particular&);
template bool checkReferences(const CheckContext&, const record::Reading&);
template bool checkReferences(const CheckContext&, const record::SharedError&);
template bool checkReferences(const CheckContext&, const record::Relation&);
template bool checkReferences(const CheckContext&, const record::Ruling&);
template bool checkReferences(const CheckContext&, const record::Departure&);
template bool checkReferences(const CheckContext&, const record::Slip&);
template bool checkReferences(const CheckContext&, const record::AsBuilt&);
template bool checkReferences(const CheckContext&, const record::Query&);
template bool checkReferences(const CheckContext&, const record::Signoff&);
template bool checkReferences(const CheckContext&, const record::Lowered&);
template bool checkReferences(const CheckContext&, const record::Acknowledgement&);
template bool checkReferences(const CheckContext&, const record::Issued&);

}  // namespace evidence::exchange
