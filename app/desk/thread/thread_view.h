#pragma once

#include "app/report/figure/thread_figure.h"
#include "evidence-core/judgement/thread.h"
#include "evidence-core/record/id.h"

#include <QWidget>

#include <optional>
#include <string>

namespace app::desk::thread {

/// Which strands are drawn: those that carry most, as many as fit, or all.
enum class Strands { Main, All };

/// The thread as a picture to click on: as wide as the room it is given, wider where it must be.
class ThreadView : public QWidget {
    Q_OBJECT

  public:
    explicit ThreadView(QWidget* parent = nullptr);

    void show(evidence::judgement::Thread thread);
    /// All of it, drawn or not.
    [[nodiscard]] const evidence::judgement::Thread& thread() const { return m_whole; }
    [[nodiscard]] bool holds(const evidence::record::AnyId& record) const;
    /// Shows the node of this record as chosen; none where it has no node.
    void markChosen(const evidence::record::AnyId& record);
    /// Where the node of a record stands.
    [[nodiscard]] std::optional<QRect> placeOf(const evidence::record::AnyId& record) const;
    void setRoom(const QSize& room);
    void setStrands(Strands strands);
    /// Whether the main strands leave any out in this room.
    [[nodiscard]] bool leavesStrandsOut() const;

    [[nodiscard]] QSize sizeHint() const override;

  Q_SIGNALS:
    void nodeChosen(const evidence::record::AnyId& record);
    /// The node that stands for those left out was clicked.
    void allStrandsWanted();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

  private:
    [[nodiscard]] report::figure::ThreadLayout laidOut(
        const evidence::judgement::Thread& thread) const;
    [[nodiscard]] evidence::judgement::Thread mainStrands() const;
    void layOut();
    void choose(std::size_t node);
    [[nodiscard]] std::optional<std::size_t> nodeOf(const evidence::record::AnyId& record) const;
    [[nodiscard]] std::optional<std::size_t> nodeUnder(const QPoint& point) const;
    [[nodiscard]] std::optional<std::size_t> neighbourOf(std::size_t node, int key) const;
    [[nodiscard]] QString tipOf(std::size_t node) const;

    evidence::judgement::Thread m_whole;
    evidence::judgement::Thread m_thread;  ///< as drawn
    report::figure::ThreadLayout m_layout;
    Strands m_strands = Strands::Main;
    evidence::record::AnyId m_chosen;
    QSize m_room;
};

}  // namespace app::desk::thread
