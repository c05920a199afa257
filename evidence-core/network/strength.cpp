#include "evidence-core/network/strength.h"

#include <algorithm>

namespace evidence::network {

using record::Basis;
using record::Grade;

std::optional<Grade> worse(const std::optional<Grade>& a, const std::optional<Grade>& b) {
    if (!a) return b;
    if (!b) return a;
    return std::max(*a, *b);
}

std::optional<Grade> strengthOf(const std::optional<Basis>& basis,
                                const std::optional<record::SourceId>& source,
                                const Origins& origins) {
    if (!basis && !source) return Grade::OurCall;
    switch (basis.value_or(Basis::Stated)) {
        case Basis::Figured:
        case Basis::Stated:
            if (source && origins.fromThisArchive(*source)) return Grade::OurCall;
            return source && origins.hasPeriodRoot(*source) ? Grade::Figured : Grade::CarriedOver;
        case Basis::Gauged:
        case Basis::Scaled:
        case Basis::Measured:
            return Grade::TakenOff;
        case Basis::Symmetry:
            return source ? Grade::TakenOff : Grade::BoxedIn;
        case Basis::Told:
        case Basis::Limit:
        case Basis::Interpolated:
        case Basis::Inferred:
            return Grade::BoxedIn;
        case Basis::Analogous:
        case Basis::TradeRule:
            return Grade::CarriedOver;
        case Basis::Guessed:
        case Basis::Assumed:
            return Grade::OurCall;
        case Basis::Geometry:
            return std::nullopt;
    }
    return Grade::OurCall;
}

namespace {

/// Certainly from another state: both say their states and they have none in common.
bool fromOtherState(const record::Reading& reading, const record::Source* source,
                    const record::Dimension& dimension) {
    if (!dimension.state) return false;
    const auto& states =
        !reading.states.empty() || source == nullptr ? reading.states : source->states;
    return !states.empty() &&
           std::find(states.begin(), states.end(), *dimension.state) == states.end();
}

}  // namespace

std::optional<Grade> strengthOf(const record::Reading& reading,
                                const std::optional<record::SourceId>& source,
                                const record::Dimension& dimension, const RegisterIndex& index,
                                const Origins& origins) {
    const record::Source* from = index.source(source);
    std::optional<Grade> strength = strengthOf(reading.basis, source, origins);
    if (reading.basis == Basis::Gauged) {
        const auto feature = reading.feature.value_or(record::Feature::Uncertain);
        if (feature == record::Feature::Original) strength = Grade::InHand;
        if (feature == record::Feature::Altered) strength = Grade::BoxedIn;
        if (from != nullptr && from->kind == record::SourceKind::Rebuild &&
            feature != record::Feature::Original)
            strength = worse(strength, Grade::CarriedOver);
    }
    if (source && origins.fromThisArchive(*source)) strength = Grade::OurCall;
    // Limits, whoever states them, are held between: B at best.
    if (!reading.value && !reading.mark && !reading.between && (reading.low || reading.high))
        strength = worse(strength, Grade::BoxedIn);
    if (fromOtherState(reading, from, dimension)) strength = worse(strength, Grade::CarriedOver);
    return strength;
}

}  // namespace evidence::network
