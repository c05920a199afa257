#include "evidence-core/store/digest.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <stdexcept>

namespace evidence::store {

struct Sha256::State {
    EVP_MD_CTX* context = EVP_MD_CTX_new();

    State() {
        if (!context || EVP_DigestInit_ex(context, EVP_sha256(), nullptr) != 1)
            throw std::runtime_error("the cryptographic library has no SHA-256");
    }
    State(const State&) = delete;
    State& operator=(const State&) = delete;
    ~State() { EVP_MD_CTX_free(context); }
};

Sha256::Sha256() : m_state(std::make_unique<State>()) {}
Sha256::~Sha256() = default;
Sha256::Sha256(Sha256&&) noexcept = default;
Sha256& Sha256::operator=(Sha256&&) noexcept = default;

void Sha256::add(std::span<const std::byte> bytes) {
    if (EVP_DigestUpdate(m_state->context, bytes.data(), bytes.size()) != 1)
        throw std::runtime_error("SHA-256 failed");
}

void Sha256::add(std::string_view text) {
    add(std::as_bytes(std::span(text)));
}

std::string Sha256::finish() {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned size = 0;
    if (EVP_DigestFinal_ex(m_state->context, digest.data(), &size) != 1)
        throw std::runtime_error("SHA-256 failed");
    std::string text;
    for (const unsigned char byte : std::span(digest).first(size))
        text += fmt::format("{:02x}", byte);
    return text;
}

std::string sha256Of(std::string_view bytes) {
    Sha256 sha;
    sha.add(bytes);
    return sha.finish();
}

}  // namespace evidence::store
