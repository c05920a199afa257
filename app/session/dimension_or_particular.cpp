#include "app/session/dimension_or_particular.h"

#include "evidence-core/record/lookup.h"

#include <fmt/format.h>

namespace app::session {

namespace record = evidence::record;

using evidence::Code;

std::string DimensionOrParticular::called() const {
    return dimension ? dimension->code.value_or(dimension->name)
                     : particular->code.value_or(particular->name);
}

evidence::Result<DimensionOrParticular> dimensionOrParticular(const record::Register& reg,
                                                              const record::AnyId& id,
                                                              std::string place) {
    const DimensionOrParticular found{record::find(reg, record::DimensionId{id.text}),
                                      record::find(reg, record::ParticularId{id.text})};
    if (!found.dimension && !found.particular)
        return refuse(Code::MissingTarget, std::move(place),
                      fmt::format("there is no dimension or particular \"{}\"; choose one that is "
                                  "in the register",
                                  id.text));
    if (found.dimension ? found.dimension->setAside : found.particular->setAside)
        return refuse(Code::WrongUse, std::move(place),
                      fmt::format("{} is set aside; choose another", found.called()));
    return found;
}

}  // namespace app::session
