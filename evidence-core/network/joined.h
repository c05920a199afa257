#pragma once

#include <cstddef>
#include <numeric>
#include <vector>

namespace evidence::network {

/// Disjoint sets of the numbers 0 … n − 1.
class Joined {
  public:
    explicit Joined(std::size_t n) : m_parent(n) {
        std::iota(m_parent.begin(), m_parent.end(), std::size_t{0});
    }
    /// The number that stands for the set of `i`.
    std::size_t leader(std::size_t i) {
        while (m_parent[i] != i) i = m_parent[i] = m_parent[m_parent[i]];
        return i;
    }
    void join(std::size_t a, std::size_t b) { m_parent[leader(a)] = leader(b); }

  private:
    std::vector<std::size_t> m_parent;
};

}  // namespace evidence::network
