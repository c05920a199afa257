#pragma once

#include <QWidget>

class QLabel;

namespace app::desk {

/// Where no register was named: offers those opened before, another one, or a new one.
class StartWindow : public QWidget {
    Q_OBJECT

  public:
    explicit StartWindow(QWidget* parent = nullptr);

    /// One sentence in red pencil: why the last choice could not be opened.
    void sayWhyNot(const QString& sentence);

  Q_SIGNALS:
    void openWanted(const QString& folder);
    void newWanted(const QString& folder);

  private:
    void chooseFolder();
    void chooseNewFolder();

    QLabel* m_whyNot;
};

}  // namespace app::desk
