#pragma once

#include "app/desk/page/tool.h"

#include <QWidget>

#include <memory>

namespace app::desk {
class Analyst;
class OpenRegister;
class Selection;
}  // namespace app::desk

namespace app::desk::page {

/// The page: the picture of the chosen sheet with its marks, scales and the glass; setting scale
/// and measuring on it. Follows the selection and sets it when a mark is clicked.
class PagePanel : public QWidget {
    Q_OBJECT

  public:
    PagePanel(OpenRegister& open, Analyst& analyst, Selection& selection,
              QWidget* parent = nullptr);
    ~PagePanel() override;

    [[nodiscard]] Tool tool() const;
    void setTool(Tool tool);

    void zoomIn();
    void zoomOut();
    void showWhole();
    void showChosen();  ///< brings the chosen mark into view, large enough to judge
    void showGlass(bool shown);

  Q_SIGNALS:
    void toolChanged(app::desk::page::Tool tool);
    /// A sentence for the foot of the window: what the tool expects, or why nothing was kept.
    void said(const QString& sentence);

  private:
    class Insides;
    std::unique_ptr<Insides> m_insides;
};

}  // namespace app::desk::page
