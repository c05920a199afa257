#include "evidence-core/judgement/finding/families.h"
#include "evidence-core/judgement/wording.h"
#include "evidence-core/quantity/edtf.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evidence::judgement {

namespace {

std::string stateName(const Context& c, const record::StateId& id) {
    const auto* state = c.index.state(id.text);
    return state ? "“" + state->label + "”" : "another state";
}

std::string stateNames(const Context& c, std::vector<record::StateId> ids) {
    std::ranges::sort(ids, {}, [&](const auto& id) { return c.index.stateOrder(id); });
    std::vector<std::string> names;
    for (const auto& id : ids) names.push_back(stateName(c, id));
    return listText(names, 3);
}

/// One reading that is in use, of a dimension or a particular.
struct InUse {
    const record::Reading* reading = nullptr;
    record::AnyId on;
    std::string name;
    std::optional<record::StateId> state;
};

std::vector<InUse> readingsInUse(const Judged& judged) {
    const auto& c = judged.context;
    std::vector<InUse> list;
    for (const auto& reading : c.solution.readings) {
        if (reading.use == network::ReadingUse::SetAside ||
            reading.use == network::ReadingUse::Echo)
            continue;
        const auto& d = c.solution.dimensions[reading.dimension];
        if (d.setAside) continue;
        list.push_back({c.index.reading(reading.id.text), record::any(d.id), nameOf(c.record(d)),
                        c.record(d).state});
    }
    for (const auto& fact : judged.facts) {
        const auto* particular = c.index.particular(fact.result.id.text);
        if (particular->setAside) continue;
        for (const auto& word : fact.words)
            list.push_back({word.reading, record::any(particular->id), nameOf(*particular),
                            particular->state});
    }
    return list;
}

void addOtherState(const Context& c, const InUse& use, std::vector<Finding>& findings) {
    const auto* source = c.index.sourceOf(*use.reading);
    if (isOfAnotherState(c.index, *use.reading, use.state)) {
        const auto& states = use.reading->states.empty() ? source->states : use.reading->states;
        findings.push_back(made(
            "other-state", {use.on, record::any(use.reading->id)},
            fmt::format("{}: {} speaks of {}, not of {}.", use.name, nameOf(c.index, *use.reading),
                        stateNames(c, states), stateName(c, *use.state)),
            "Show that this feature was not changed in between, or find evidence of the "
            "state that is being rebuilt. Until then it counts as carried over (C)."));
        return;
    }
    const auto* later = source ? c.lineage.replacedBy(*source) : nullptr;
    const bool meant = source && use.state &&
                       std::ranges::find(source->states, *use.state) != source->states.end();
    if (!later || meant || later->setAside) return;
    findings.push_back(
        made("other-state", {use.on, record::any(use.reading->id), record::any(source->id)},
             fmt::format("{}: {} stands on an issue that {} replaced.", use.name,
                         nameOf(c.index, *use.reading), nameOf(*later)),
             "Compare the two issues, and say which of them shows the state that is being "
             "rebuilt."));
}

void addProposal(const Context& c, const InUse& use, std::vector<Finding>& findings) {
    const auto* source = c.index.sourceOf(*use.reading);
    if (!source || source->standing != record::Standing::Proposal) return;
    findings.push_back(
        made("proposal-evidence", {use.on, record::any(use.reading->id), record::any(source->id)},
             fmt::format("{}: {} comes from a proposal; nothing shows that it was built so.",
                         use.name, nameOf(c.index, *use.reading)),
             "A picture, a part or an as-built drawing that shows this feature."));
}

void addAnachronisms(const Context& c, std::vector<Finding>& findings) {
    for (const auto& source : c.index.reg().sources) {
        if (source.setAside || !source.date) continue;
        const auto date = quantity::parseEdtf(*source.date);
        if (!date) continue;
        for (const auto& id : source.states) {
            const auto* state = c.index.state(id.text);
            if (!state || !state->to) continue;
            const auto end = quantity::parseEdtf(*state->to);
            if (!end || !quantity::certainlyAfter(*date, *end)) continue;
            findings.push_back(
                made("anachronism", {record::any(source.id), record::any(id)},
                     fmt::format("{} is dated {}, and yet it is said to show {}, which ended {}.",
                                 nameOf(source), *source.date, stateName(c, id), *state->to),
                     "Check the date and the state. A later copy of an early drawing descends "
                     "from it: say so, and date the original."));
        }
    }
}

}  // namespace

void findStateFaults(const Judged& judged, std::vector<Finding>& findings) {
    for (const auto& use : readingsInUse(judged)) {
        addOtherState(judged.context, use, findings);
        addProposal(judged.context, use, findings);
    }
    addAnachronisms(judged.context, findings);
}

}  // namespace evidence::judgement
