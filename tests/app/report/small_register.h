#pragma once

#include "app/report/report.h"
#include "tests/support/register_builder.h"
#include "tests/support/scratch_folder.h"

#include <filesystem>
#include <map>
#include <string>

namespace tests::report {

/// A register with a record or two of every kind that a report shows, about the invented railcar
/// Teal, with two real pictures in a folder of its own. Change `built.reg`, then write.
///
/// D1 door width (scaled on S1, ruled, departed from, built) · D2 window width (scaled on S2, which
/// is not cleared for printing) · D3 brake lever (critical, guessed, handed out) · D4 axlebox bore
/// (gauged on S3) · D5 hoop rise (ruled 43 5/16, allow ± 1/16; S1 and S4 disagree) · P1 body
/// colour.
class SmallRegister {
  public:
    SmallRegister();

    testsupport::RegisterBuilder built;
    std::map<std::string, int> asked;  ///< how often the original of a file was asked for

    /// Writes to a new file with `extension` and returns its path; the test fails where it cannot.
    std::filesystem::path write(const std::string& extension,
                                const app::report::ReportRequest& request = provenance());
    [[nodiscard]] evidence::Result<void> tryWrite(const std::filesystem::path& out,
                                                  const app::report::ReportRequest& request);
    [[nodiscard]] const std::filesystem::path& folder() const { return m_folder.path(); }
    [[nodiscard]] static app::report::ReportRequest provenance();
    [[nodiscard]] static app::report::ReportRequest only(app::report::Kind kind,
                                                         const std::string& on = {});

  private:
    void addSources();
    void addEvidence();
    void addDecisions();

    test::ScratchFolder m_folder;
    int m_written = 0;
};

}  // namespace tests::report
