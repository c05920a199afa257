#include "tests/app/qt_environment.h"

#include <QApplication>
#include <QFont>
#include <QStringList>
#include <QTemporaryDir>
#include <gtest/gtest.h>

#include <memory>

namespace tests::app {

namespace {

QStringList& announced() {
    static QStringList list;
    return list;
}

void failOnWarning(QtMsgType type, const QMessageLogContext&, const QString& message) {
    if (type == QtDebugMsg || type == QtInfoMsg) return;
    // What a platform without a screen cannot do anyway.
    for (const char* beside : {"propagateSizeHints", "does not support raise()"})
        if (message.contains(QLatin1String(beside))) return;
    for (qsizetype i = 0; i < announced().size(); ++i)
        if (message.contains(announced()[i])) {
            announced().removeAt(i);
            return;
        }
    ADD_FAILURE() << "Qt said: " << message.toStdString();
}

/// One QApplication per test program, before main's tests run. gtest owns the environment.
class QtEnvironment : public ::testing::Environment {
  public:
    void SetUp() override {
        ASSERT_TRUE(m_home.isValid());
        for (const char* name : {"HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME",
                                 "XDG_DATA_HOME", "XDG_RUNTIME_DIR"})
            qputenv(name, m_home.path().toUtf8());
        qputenv("QT_QPA_PLATFORM", "offscreen");
        qputenv("LC_ALL", "C.UTF-8");
        qInstallMessageHandler(failOnWarning);
        m_application = std::make_unique<QApplication>(m_count, m_arguments);
        QFont font(QStringLiteral("DejaVu Sans"));
        font.setPointSizeF(9);
        QApplication::setFont(font);
    }
    void TearDown() override {
        EXPECT_TRUE(announced().isEmpty())
            << "announced but never said: " << announced().join(QStringLiteral("; ")).toStdString();
        m_application.reset();
        qInstallMessageHandler(nullptr);
    }

  private:
    QTemporaryDir m_home;
    int m_count = 1;
    char m_name[5] = "test";
    char* m_arguments[2] = {m_name, nullptr};
    std::unique_ptr<QApplication> m_application;
};

const ::testing::Environment* const kEnvironment =
    ::testing::AddGlobalTestEnvironment(new QtEnvironment);

}  // namespace

void announceQtWarning(const QString& part) {
    announced() << part;
}

}  // namespace tests::app
