#include "app/session/given_text.h"
#include "app/session/plan_check.h"
#include "evidence-core/judgement/finding/finder.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

#include <algorithm>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

namespace {

bool isKindOfFinding(const std::string& kind) {
    return std::ranges::any_of(evidence::judgement::allKinds(),
                               [&](const auto& known) { return known.first == kind; });
}

/// "/finding/on/0" → "on/0": the form asks for no finding, it has one.
std::string fieldOf(const record::AnyRecord& made, std::string_view pointer) {
    constexpr std::string_view kFinding = "/finding";
    return sameField(made, pointer.substr(pointer.starts_with(kFinding) ? kFinding.size() : 0));
}

}  // namespace

evidence::Result<record::ChangeSet> planAcknowledge(const Context& context, const std::string& kind,
                                                    const std::vector<record::AnyId>& on,
                                                    const std::string& digest,
                                                    const std::string& reason) {
    if (!isKindOfFinding(kind))
        return refuse(Code::BadValue, "kind", fmt::format("no finding is called \"{}\"", kind));
    if (on.empty() && isBlank(digest))
        return refuse(Code::MissingKey, "on", "say which finding: the records it concerns");
    const auto why = required(reason, "reason", "say why the finding may stand");
    if (!why) return tl::unexpected(why.error());

    record::Acknowledgement seen;
    seen.id = {record::newUuid7()};
    seen.finding = {kind, on};
    seen.reason = *why;
    seen.by = context.by;
    seen.at = context.at;
    seen.digest = given(digest);
    return checked(context, {"acknowledge " + kind, {{std::nullopt, std::move(seen)}}}, fieldOf);
}

}  // namespace app::session
