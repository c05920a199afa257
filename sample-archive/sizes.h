#pragma once

#include "sample-archive/truth.h"

#include <string>
#include <vector>

namespace sample {

/// One dimension of the register with its true value.
struct Size {
    std::string id;
    std::string name;
    std::string component;
    std::string quantity;  ///< length, diameter, radius, mass …
    std::string unit;      ///< of `value` and `tolerance`
    double tolerance = 0;  ///< wanted, ±; 0: none stated
    bool critical = false;
    double value = 0;  ///< true value on the car given
};

/// Every dimension of the register, in the order of its codes (D1 is the first).
[[nodiscard]] std::vector<Size> sizesOf(const Railcar& car);

/// Code of a dimension (`D12`); the id must be one of the list.
[[nodiscard]] std::string codeOf(const std::string& id);

/// A formula with dimension ids in braces, `{d-wheelbase} = 84 in`, with codes in their place.
[[nodiscard]] std::string withCodes(const std::string& formula);

}  // namespace sample
