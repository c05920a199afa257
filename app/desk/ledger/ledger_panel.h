#pragma once

#include <QWidget>

#include <memory>

namespace app::desk {
class Analyst;
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::ledger {

/// The ledger: components and their dimensions and particulars with value, ± (half the 95 %
/// interval), interval bar and grade sign; in its margin the findings as red-pencil notes beside
/// the value they concern. QActions added to the panel are its context menu.
class LedgerPanel : public QWidget {
    Q_OBJECT

  public:
    LedgerPanel(OpenRegister& open, Analyst& analyst, Selection& selection,
                QWidget* parent = nullptr);
    ~LedgerPanel() override;

    /// Puts the cursor into the field that narrows the ledger by words, codes and grades.
    void startFilter();

  Q_SIGNALS:
    /// A note of the margin was asked to be acknowledged: index into the analysis's findings.
    void acknowledgeWanted(std::size_t finding);

  private:
    class Insides;
    std::unique_ptr<Insides> m_insides;
};

}  // namespace app::desk::ledger
