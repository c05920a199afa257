#include "app/session/tolerance_typed.h"

#include "app/session/typed_amount.h"
#include "evidence-core/record/lookup.h"
#include "evidence-core/record/measure.h"

namespace app::session {

namespace record = evidence::record;

evidence::Result<std::optional<double>> toleranceTyped(const std::string& text,
                                                       const record::AnyId& on,
                                                       const record::Register& reg) {
    if (const auto* dimension = record::find(reg, record::DimensionId{on.text}))
        return typedAmount(text, record::unitOf(*dimension), "tolerance");
    if (text.empty()) return std::nullopt;
    return evidence::refuse(evidence::Code::WrongUse, "tolerance",
                            "Only a dimension has a tolerance; leave this empty.");
}

}  // namespace app::session
