#include "app/session/known_page.h"
#include "app/session/plan_check.h"
#include "evidence-core/record/uuid7.h"

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

evidence::Result<record::ChangeSet> planPrintedScale(const Context& context,
                                                     const PrintedScaleDraft& draft) {
    const auto page = knownPage(context.reg, draft.file, draft.page, "");
    if (!page) return tl::unexpected(page.error());
    if (!draft.print.dpi)
        return refuse(Code::MissingKey, "print/dpi",
                      "give the resolution of the scan in pixels per inch");
    if (!draft.print.drawnScale)
        return refuse(Code::MissingKey, "print/drawn_scale",
                      "give the drawn scale, such as 24 for 1:24");
    record::Frame frame;
    frame.id = {record::newUuid7()};
    frame.file = draft.file;
    frame.page = draft.page;
    frame.model = record::FrameModel::Printed;
    frame.print = draft.print;
    return checked(context, {"set scale by print on " + *page, {{std::nullopt, frame}}});
}

}  // namespace app::session
