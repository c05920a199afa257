#include "evidence-core/store/originals.h"

#include "evidence-core/exchange/write_document.h"
#include "evidence-core/store/digest.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <functional>
#include <span>
#include <system_error>

namespace evidence::store {

namespace {

namespace fs = std::filesystem;

/// An open file that closes itself.
class Descriptor {
  public:
    explicit Descriptor(int number) : m_number(number) {}
    ~Descriptor() {
        if (m_number >= 0) ::close(m_number);
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    [[nodiscard]] int number() const { return m_number; }
    [[nodiscard]] bool isOpen() const { return m_number >= 0; }

  private:
    int m_number;
};

[[noreturn]] void systemFailed(const fs::path& file, const char* doing) {
    throw std::system_error(errno, std::generic_category(),
                            std::string(doing) + ' ' + file.string());
}

void writeAll(int to, std::span<const std::byte> bytes, const fs::path& name) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(to, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) systemFailed(name, "cannot write");
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
}

tl::unexpected<Refusal> missing(const fs::path& file, const std::string& why) {
    return refuse(Code::MissingFile, file.filename().string(), why);
}

bool sameFile(const struct stat& a, const struct stat& b) {
    return a.st_size == b.st_size && a.st_ino == b.st_ino && a.st_dev == b.st_dev &&
           a.st_mtim.tv_sec == b.st_mtim.tv_sec && a.st_mtim.tv_nsec == b.st_mtim.tv_nsec;
}

/// Reads a regular file from end to end, giving each piece to `take`.
/// Errors: MissingFile, HashMismatch where the file changed under the reading.
Result<Originals::Added> readThrough(const fs::path& file,
                                     const std::function<void(std::span<const std::byte>)>& take) {
    // Without O_NONBLOCK opening a pipe would wait for ever.
    const Descriptor in(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
    if (!in.isOpen()) return missing(file, std::generic_category().message(errno));
    struct stat before {};
    if (::fstat(in.number(), &before) != 0) systemFailed(file, "cannot look at");
    if (!S_ISREG(before.st_mode)) return missing(file, "this is not a regular file");

    constexpr std::size_t kPiece = std::size_t{1} << 20U;
    std::vector<std::byte> piece(kPiece);
    Sha256 sha;
    std::int64_t bytes = 0;
    // A file that grows as fast as it is read would never end: one piece too many is enough to
    // know.
    while (bytes <= before.st_size) {
        const ssize_t got = ::read(in.number(), piece.data(), piece.size());
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) systemFailed(file, "cannot read");
        if (got == 0) break;
        const std::span<const std::byte> part(piece.data(), static_cast<std::size_t>(got));
        sha.add(part);
        take(part);
        bytes += got;
    }
    struct stat after {};
    if (::fstat(in.number(), &after) != 0) systemFailed(file, "cannot look at");
    if (!sameFile(before, after) || bytes != after.st_size)
        return refuse(Code::HashMismatch, file.filename().string(),
                      "this file changed while it was read; try again when it is at rest");
    return Originals::Added{sha.finish(), bytes};
}

void syncFolder(const fs::path& folder) {
    const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (handle.isOpen()) ::fsync(handle.number());
}

/// A file that is taken away again unless it was kept.
class TemporaryFile {
  public:
    explicit TemporaryFile(const fs::path& folder)
        : m_name((folder / "incoming-XXXXXX").string()),
          m_descriptor(::mkostemp(m_name.data(), O_CLOEXEC)) {
        if (!m_descriptor.isOpen()) systemFailed(m_name, "cannot write");
    }
    ~TemporaryFile() {
        if (!m_kept) ::unlink(m_name.c_str());
    }
    TemporaryFile(const TemporaryFile&) = delete;
    TemporaryFile& operator=(const TemporaryFile&) = delete;

    void write(std::span<const std::byte> bytes) { writeAll(m_descriptor.number(), bytes, m_name); }
    void keepAs(const fs::path& name) {
        constexpr mode_t kReadOnly = 0444;
        if (::fsync(m_descriptor.number()) != 0) systemFailed(m_name, "cannot write");
        if (::fchmod(m_descriptor.number(), kReadOnly) != 0) systemFailed(m_name, "cannot protect");
        fs::rename(m_name, name);
        m_kept = true;
        syncFolder(name.parent_path());
    }

  private:
    std::string m_name;
    Descriptor m_descriptor;
    bool m_kept = false;
};

}  // namespace

Originals::Originals(fs::path archive) : m_archive(std::move(archive)) {}

Result<Originals::Added> Originals::add(const fs::path& from, const record::File& given) {
    fs::create_directories(m_archive / "originals");
    TemporaryFile copy(m_archive / "originals");
    const auto added = readThrough(from, [&](auto bytes) { copy.write(bytes); });
    if (!added) return added;
    if (given.sha256 && *given.sha256 != added->sha256)
        return refuse(Code::HashMismatch, from.filename().string(),
                      "this file is not the one that was promised: its SHA-256 is " +
                          added->sha256 + ", expected " + *given.sha256);
    record::File named = given;
    named.sha256 = added->sha256;
    const fs::path name = m_archive / exchange::originalsPath(named);
    if (!fs::exists(name)) copy.keepAs(name);
    return added;
}

std::optional<fs::path> Originals::find(const record::File& file) const {
    if (!file.sha256) return std::nullopt;
    fs::path name = m_archive / exchange::originalsPath(file);
    if (fs::is_regular_file(name)) return name;
    // The same bytes may have come under another extension.
    const fs::path folder = m_archive / "originals";
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder, none))
        if (entry.path().stem() == *file.sha256) return entry.path();
    return std::nullopt;
}

Originals::Fixity Originals::verifyFixity(const record::Register& reg) const {
    Fixity fixity;
    for (const auto& source : reg.sources) {
        for (const auto& file : source.files) {
            const auto path = find(file);
            const auto now = path ? fingerprintOf(*path) : missing(file.path, "absent");
            if (!now)
                fixity.missing.push_back(file.id);
            else if (now->sha256 != *file.sha256)
                fixity.altered.push_back(file.id);
        }
    }
    return fixity;
}

Result<Originals::Added> fingerprintOf(const fs::path& file) {
    return readThrough(file, [](auto) {});
}

}  // namespace evidence::store
