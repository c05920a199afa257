#include "imaging/raster/file_bytes.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <cerrno>
#include <fstream>
#include <memory>
#include <system_error>

namespace imaging::raster {
namespace {

std::ifstream openFile(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) {
        throw std::system_error(errno, std::generic_category(), file.string());
    }
    return in;
}

}  // namespace

std::vector<std::uint8_t> fileBytes(const std::filesystem::path& file) {
    std::ifstream in = openFile(file);
    std::vector<std::uint8_t> bytes(static_cast<std::size_t>(std::filesystem::file_size(file)));
    in.read(reinterpret_cast<char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    bytes.resize(static_cast<std::size_t>(in.gcount()));
    return bytes;
}

std::string fileDigest(const std::filesystem::path& file) {
    std::ifstream in = openFile(file);
    const std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context(EVP_MD_CTX_new(),
                                                                          EVP_MD_CTX_free);
    EVP_DigestInit_ex(context.get(), EVP_sha256(), nullptr);
    std::array<char, 65536> block{};
    while (in) {
        in.read(block.data(), block.size());
        EVP_DigestUpdate(context.get(), block.data(), static_cast<std::size_t>(in.gcount()));
    }
    if (in.bad()) {
        throw std::system_error(errno, std::generic_category(), file.string());
    }
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned int length = 0;
    EVP_DigestFinal_ex(context.get(), digest.data(), &length);
    std::string text;
    for (unsigned int i = 0; i < length; ++i) {
        text += fmt::format("{:02x}", digest[i]);
    }
    return text;
}

}  // namespace imaging::raster
