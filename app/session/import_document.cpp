#include "app/session/import_document.h"

#include "evidence-core/exchange/plan_import.h"
#include "evidence-core/exchange/write_document.h"
#include "evidence-core/store/originals.h"
#include "imaging/raster/header.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <vector>

namespace app::session {

namespace {

namespace fs = std::filesystem;
namespace exchange = evidence::exchange;
namespace record = evidence::record;
namespace store = evidence::store;

using evidence::Code;
using evidence::Refusal;
using evidence::Result;

Result<std::string> readWhole(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in || !fs::is_regular_file(file))
        return refuse(Code::MissingFile, file.string(), "there is no such document to read");
    return std::string(std::istreambuf_iterator<char>(in), {});
}

/// `path` inside `folder`, or nothing where it leads out of it or nothing is there. A document from
/// somebody else must not make us copy what it has no business with.
std::optional<fs::path> inside(const fs::path& folder, const fs::path& path) {
    std::error_code none;
    const fs::path root = fs::weakly_canonical(folder, none);
    const fs::path file = fs::weakly_canonical(root / path, none);
    if (none || path.is_absolute()) return std::nullopt;
    const auto [rootEnd, at] = std::ranges::mismatch(root, file);
    if (rootEnd != root.end() || at == file.end()) return std::nullopt;
    return fs::is_regular_file(file) ? std::optional(file) : std::nullopt;
}

/// What can be said of a file without decoding it.
void describe(record::File& file, const fs::path& bytes) {
    const auto header = imaging::raster::readHeader(bytes);
    if (header) {
        file.mediaType = header->mediaType;
        file.pages = static_cast<int>(header->sheets.size());
        return;
    }
    std::string start(5, '\0');
    std::ifstream(bytes, std::ios::binary).read(start.data(), 5);
    if (start == "%PDF-") file.mediaType = "application/pdf";
}

/// The files of one document on their way into the archive.
class IncomingFiles {
  public:
    IncomingFiles(const Archive& archive, const fs::path& document, const ImportOptions& options)
        : m_originals(archive.folder()), m_folders{document.parent_path()} {
        if (m_folders[0].empty()) m_folders[0] = ".";
        if (options.files) m_folders.push_back(*options.files);
    }

    /// Finds and hashes every file and completes its record; copies nothing yet.
    std::optional<Refusal> look(record::Register& incoming) {
        for (std::size_t i = 0; i < incoming.sources.size(); ++i) {
            auto& files = incoming.sources[i].files;
            for (std::size_t j = 0; j < files.size(); ++j)
                if (auto refusal = look(files[j], fmt::format("/sources/{}/files/{}", i, j)))
                    return refusal;
        }
        return std::nullopt;
    }

    /// Copies what was found. The system failed where this does: the bytes were read just now.
    std::optional<Refusal> copy() {
        for (const auto& [from, file] : m_found)
            if (auto added = m_originals.add(from, file); !added) return added.error();
        return std::nullopt;
    }

  private:
    std::optional<Refusal> look(record::File& file, const std::string& pointer) {
        const auto from = find(file.path);
        if (!from && !file.sha256)
            return Refusal{Code::MissingFile, pointer + "/path",
                           fmt::format("\"{}\" is neither beside the document nor under --files, "
                                       "and no hash is given; paths out of those folders are not "
                                       "followed",
                                       file.path)};
        if (from) {
            const auto print = store::fingerprintOf(*from);
            if (!print) return Refusal{print.error().code, pointer + "/path", print.error().help};
            if (file.sha256 && *file.sha256 != print->sha256)
                return Refusal{Code::HashMismatch, pointer + "/sha256",
                               fmt::format("\"{}\" is not the promised file: its SHA-256 is {}",
                                           file.path, print->sha256)};
            file.sha256 = print->sha256;
            file.bytes = print->bytes;
            describe(file, *from);
        }
        // The document's name is kept where it says more than the hash.
        const fs::path given(file.path);
        if (!file.originalName && given.stem() != *file.sha256)
            file.originalName = given.filename().string();
        if (from)
            m_found.emplace_back(*from, file);
        else if (const auto kept = m_originals.find(file))
            describe(file, *kept);
        file.path = exchange::originalsPath(file);
        return std::nullopt;
    }

    [[nodiscard]] std::optional<fs::path> find(const fs::path& path) const {
        for (const auto& folder : m_folders)
            if (auto file = inside(folder, path)) return file;
        // With --files a folder of pictures will do, whatever folders the document names.
        if (m_folders.size() > 1) return inside(m_folders[1], path.filename());
        return std::nullopt;
    }

    store::Originals m_originals;
    std::vector<fs::path> m_folders;
    std::vector<std::pair<fs::path, record::File>> m_found;
};

/// Rulings that come without it take the state of the evidence as it is after the import.
void takeEvidence(record::Register& incoming, const record::Register& after) {
    const auto lacks = [](const record::Ruling& ruling) { return !ruling.evidence.has_value(); };
    if (std::ranges::none_of(incoming.rulings, lacks)) return;
    const auto analysis = evidence::judgement::analyse(after);
    if (!analysis) return;  // no state to take; the analysis will say why
    for (auto& ruling : incoming.rulings) {
        if (ruling.evidence) continue;
        const auto found = std::ranges::find_if(analysis->dimensions, [&](const auto& dimension) {
            return any(dimension.id) == ruling.on;
        });
        if (found == analysis->dimensions.end()) continue;
        ruling.evidence =
            record::EvidenceState{found->value, found->u, found->grade, found->digest};
    }
}

}  // namespace

Result<ChangeNotice> importDocument(Archive& archive, const fs::path& document,
                                    const ImportOptions& options) {
    const auto text = readWhole(document);
    if (!text) return tl::unexpected<Refusal>(text.error());
    auto incoming = exchange::readDocument(*text);
    if (!incoming) return tl::unexpected<Refusal>(incoming.error());

    const auto mode = options.update ? exchange::ImportMode::Update : exchange::ImportMode::Add;
    const auto& current = archive.snapshot()->reg;
    const auto planned = exchange::planImport(current, *incoming, mode);
    if (!planned) return tl::unexpected<Refusal>(planned.error());

    IncomingFiles files(archive, document, options);
    if (auto refusal = files.look(incoming->reg)) return tl::unexpected<Refusal>(*refusal);
    // What was found out of the files, their hashes above all, is part of the evidence.
    const auto described = exchange::planImport(current, *incoming, mode);
    if (!described) return tl::unexpected<Refusal>(described.error());
    takeEvidence(incoming->reg, record::applied(current, *described));
    const auto completed = exchange::planImport(current, *incoming, mode);
    if (!completed) return tl::unexpected<Refusal>(completed.error());
    if (auto refusal = files.copy()) return tl::unexpected<Refusal>(*refusal);
    return archive.perform(*completed);
}

}  // namespace app::session
