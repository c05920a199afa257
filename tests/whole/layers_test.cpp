// The house has layers (DEVELOPERS.md): this reads every include of ours and holds them to it.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <functional>
#include <regex>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

struct Include {
    std::string file;
    std::string target;
};

std::vector<Include> includesBelow(const std::string& room) {
    static const std::regex kInclude(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
    std::vector<Include> found;
    const fs::path root = LOSTLINES_SOURCE;
    for (const auto& entry : fs::recursive_directory_iterator(root / room)) {
        const auto extension = entry.path().extension();
        if (extension != ".h" && extension != ".cpp") continue;
        std::ifstream in(entry.path());
        std::smatch match;
        for (std::string line; std::getline(in, line);)
            if (std::regex_search(line, match, kInclude))
                found.push_back({fs::relative(entry.path(), root).string(), match[1]});
    }
    return found;
}

void expectNone(const std::string& room, const std::function<bool(const Include&)>& forbidden) {
    const auto includes = includesBelow(room);
    ASSERT_FALSE(includes.empty()) << room << " has no sources: is this the right folder?";
    for (const auto& include : includes)
        EXPECT_FALSE(forbidden(include)) << include.file << " includes " << include.target;
}
void expectNone(const std::string& room, const std::function<bool(const std::string&)>& forbidden) {
    expectNone(room, [&](const Include& include) { return forbidden(include.target); });
}

bool isQt(const std::string& target) {
    return std::regex_search(target, std::regex("^Q[A-Z]|^Qt"));
}

TEST(Layers, CoreKnowsNeitherQtNorOpenCvNorWhatIsAboveIt) {
    expectNone("evidence-core", [](const std::string& t) {
        return isQt(t) || t.starts_with("opencv2") || t.starts_with("imaging/") ||
               t.starts_with("app/");
    });
}

TEST(Layers, ImagingKnowsNeitherQtNorSqlAndOfTheCoreOnlyTheFrames) {
    expectNone("imaging", [](const std::string& t) {
        return isQt(t) || t.starts_with("sqlite") || t.starts_with("SQLiteCpp") ||
               t.starts_with("app/") ||
               (t.starts_with("evidence-core/") && !t.starts_with("evidence-core/frame/"));
    });
}

TEST(Layers, FrameEquationsUseEigenAlone) {
    expectNone("evidence-core/frame", [](const std::string& t) {
        return t.starts_with("evidence-core/") && !t.starts_with("evidence-core/frame/");
    });
}

TEST(Layers, SessionHasNoWidgets) {
    expectNone("app/session", [](const std::string& t) {
        return t.starts_with("QWidget") || t.starts_with("QtWidgets") || t.starts_with("app/desk/");
    });
}

TEST(Layers, DeskTouchesNoDatabase) {
    expectNone("app/desk", [](const Include& include) {
        const auto& t = include.target;
        const bool numbers = t.starts_with("Eigen/") || t.starts_with("unsupported/Eigen/") ||
                             t.starts_with("opencv2/");
        return t.starts_with("sqlite") || t.starts_with("SQLiteCpp") ||
               t.starts_with("evidence-core/store/") ||
               (numbers && !include.file.starts_with("app/desk/page/"));
    });
}

}  // namespace
