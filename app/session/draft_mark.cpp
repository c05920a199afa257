#include "app/session/draft_mark.h"

#include "app/session/known_page.h"
#include "evidence-core/network/mark_length.h"
#include "evidence-core/record/uuid7.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;
using evidence::Refusal;

record::Mark asPlaced(const MarkDraft& draft) {
    record::Mark mark;
    mark.file = draft.file;
    mark.page = draft.page;
    mark.kind = draft.kind;
    mark.points = draft.points;
    mark.uPx = draft.uPx;
    mark.covariance = draft.covariance;
    mark.made = draft.made;
    mark.fit = draft.fit;
    mark.seen = draft.seen;
    return mark;
}

evidence::Result<record::Mark> markOf(const Context& context, const MarkDraft& draft) {
    const auto page = knownPage(context.reg, draft.file, draft.page, "mark/");
    if (!page) return tl::unexpected<Refusal>(page.error());
    record::Mark mark = asPlaced(draft);
    mark.id = {record::newUuid7()};
    return mark;
}

std::optional<Refusal> lacksSize(const record::Mark& mark, record::DimensionQuantity asked) {
    const auto size = evidence::network::measured(mark, asked);
    if (size) return std::nullopt;
    return Refusal{Code::BadValue, "mark/points",
                   fmt::format("this {} gives no {}: {}", record::nameOf(mark.kind),
                               record::nameOf(asked), size.error())};
}

}  // namespace app::session
