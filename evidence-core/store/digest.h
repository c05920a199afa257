#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <string_view>

namespace evidence::store {

/// SHA-256 (FIPS 180-4) of bytes that come in pieces.
class Sha256 {
  public:
    Sha256();
    ~Sha256();
    Sha256(Sha256&&) noexcept;
    Sha256& operator=(Sha256&&) noexcept;

    void add(std::span<const std::byte> bytes);
    void add(std::string_view text);
    /// 64 lower-case hexadecimal digits. Nothing can be added afterwards.
    [[nodiscard]] std::string finish();

  private:
    struct State;
    std::unique_ptr<State> m_state;
};

[[nodiscard]] std::string sha256Of(std::string_view bytes);

}  // namespace evidence::store
