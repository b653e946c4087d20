// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/access/sample_window.h"

#include "ui/document/item_ref.h"
#include "ui/window/window_settings.h"

#include <QDir>
#include <QTabWidget>
#include <QTest>

namespace ullage::ui {

namespace {

constexpr int longest_wait_ms = 120'000;
const QString folder = QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites");
const QString ending = QStringLiteral(".site.json");

}  // namespace

std::vector<std::string> sampleNames() {
    std::vector<std::string> names;
    for (const QString& file :
         QDir(folder).entryList({QLatin1Char('*') + ending}, QDir::Files, QDir::Name))
        names.push_back(file.chopped(ending.size()).toStdString());
    return names;
}

void settle() {
    for (int i = 0; i < 3; ++i) {
        QCoreApplication::sendPostedEvents();
        QCoreApplication::processEvents();
    }
}

std::string pathOf(const QWidget& widget) {
    std::string path;
    for (const QWidget* at = &widget; at; at = at->parentWidget()) {
        const std::string name = at->objectName().toStdString();
        if (at == &widget || !name.empty())
            path += (path.empty() ? "" : " in ") + std::string(at->metaObject()->className()) +
                    (name.empty() ? "" : " " + name);
    }
    return path;
}

void EverySample::SetUp() {
    windowSettings().clear();
    qputenv("ULLAGE_SAMPLES", folder.toUtf8());
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.resize(1280, 800);
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    window.openSample(folder + QLatin1Char('/') + QString::fromStdString(GetParam()) + ending);
    ASSERT_TRUE(window.document().isOpen());
    ASSERT_TRUE(QTest::qWaitFor(
        [this] { return window.runner().state() == AnswerRunner::State::idle; }, longest_wait_ms));
    settle();
    ASSERT_EQ(window.size(), QSize(1280, 800)) << "the window asks for more room than there is";
}

void EverySample::onEachPage(const std::function<void(const QString&)>& look) {
    auto* pages = window.findChild<QTabWidget*>(QStringLiteral("pages"));
    for (int i = 0; i < pages->count(); ++i) {
        pages->setCurrentIndex(i);
        settle();
        look(pages->tabText(i));
    }
}

void EverySample::onEachForm(const std::function<void(const QString&)>& look) {
    const Site& site = window.document().site();
    const auto each = [&](ItemKind kind, std::size_t count) {
        for (std::size_t i = 0; i < count; ++i) {
            const QString pointer = pointerOf({kind, static_cast<int>(i)});
            window.showPointer(pointer);
            settle();
            look(pointer);
        }
    };
    window.showPointer({});
    settle();
    look(QStringLiteral("the site"));
    each(ItemKind::dataset, site.datasets.size());
    each(ItemKind::box, site.boxes.size());
    each(ItemKind::link, site.links.size());
    each(ItemKind::send, site.sends.size());
    each(ItemKind::offer, site.offers.size());
}

}  // namespace ullage::ui
