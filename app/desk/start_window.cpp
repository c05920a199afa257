#include "app/desk/start_window.h"

#include "app/desk/desk_settings.h"
#include "app/desk/look/look.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

namespace app::desk {

namespace {

QLabel* words(const QString& text, double points, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setWordWrap(true);
    QFont font = label->font();
    font.setPointSizeF(points);
    label->setFont(font);
    return label;
}

}  // namespace

StartWindow::StartWindow(QWidget* parent) : QWidget(parent) {
    setWindowTitle(tr("Lostlines"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(32, 28, 32, 28);
    column->setSpacing(12);
    column->addWidget(words(tr("Lostlines"), 16, this));
    column->addWidget(words(tr("The register of the evidence for a design whose drawings are lost. "
                               "A register is a folder; nothing in it is ever altered by looking."),
                            10, this));

    const QStringList before = desk_settings::openedBefore();
    if (!before.isEmpty()) {
        column->addWidget(words(tr("Opened before"), 9, this));
        auto* list = new QListWidget(this);
        list->setObjectName(QStringLiteral("openedBefore"));
        for (const QString& folder : before) {
            auto* item = new QListWidgetItem(
                tr("%1   in %2").arg(QFileInfo(folder).fileName(), QFileInfo(folder).path()), list);
            item->setData(Qt::UserRole, folder);
        }
        connect(list, &QListWidget::itemActivated, this, [this](const QListWidgetItem* item) {
            Q_EMIT openWanted(item->data(Qt::UserRole).toString());
        });
        column->addWidget(list, 1);
    } else {
        column->addStretch(1);
    }

    m_whyNot = words({}, 10, this);
    m_whyNot->setObjectName(QStringLiteral("whyNot"));
    QPalette red = m_whyNot->palette();
    red.setColor(QPalette::WindowText, look::colours().redPencil);
    m_whyNot->setPalette(red);
    m_whyNot->hide();
    column->addWidget(m_whyNot);

    auto* buttons = new QHBoxLayout;
    auto* open = new QPushButton(tr("Open a register …"), this);
    auto* make = new QPushButton(tr("Start a new register …"), this);
    buttons->addWidget(open);
    buttons->addWidget(make);
    buttons->addStretch(1);
    column->addLayout(buttons);
    connect(open, &QPushButton::clicked, this, &StartWindow::chooseFolder);
    connect(make, &QPushButton::clicked, this, &StartWindow::chooseNewFolder);
    resize(620, 420);
}

void StartWindow::sayWhyNot(const QString& sentence) {
    m_whyNot->setText(sentence);
    m_whyNot->setVisible(!sentence.isEmpty());
}

void StartWindow::chooseFolder() {
    auto* dialog = new QFileDialog(this, tr("Open a register: choose its folder"));
    dialog->setFileMode(QFileDialog::Directory);
    dialog->setOption(QFileDialog::ShowDirsOnly);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::fileSelected, this, &StartWindow::openWanted);
    dialog->open();
}

void StartWindow::chooseNewFolder() {
    auto* dialog = new QFileDialog(this, tr("Start a new register: name its folder"));
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::fileSelected, this, &StartWindow::newWanted);
    dialog->open();
}

}  // namespace app::desk
