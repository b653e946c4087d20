// SPDX-License-Identifier: GPL-3.0-or-later
// What a person hears and reaches who does not use the mouse or the screen.
#include "tests/ui/access/listing_shown.h"
#include "tests/ui/access/sample_window.h"
#include "tests/ui/window/small.h"
#include "ui/window/window_settings.h"

#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QPushButton>
#include <QRadioButton>
#include <QTest>

#include <algorithm>
#include <set>

namespace ullage::ui {
namespace {

bool isInteractive(QAccessible::Role role) {
    switch (role) {
        case QAccessible::PushButton:
        case QAccessible::ButtonMenu:
        case QAccessible::CheckBox:
        case QAccessible::RadioButton:
        case QAccessible::ComboBox:
        case QAccessible::EditableText:
        case QAccessible::SpinBox:
        case QAccessible::Slider:
        case QAccessible::PageTab:
        case QAccessible::MenuItem:
        case QAccessible::ListItem:
        case QAccessible::TreeItem:
        case QAccessible::Link:
        case QAccessible::Tree:
        case QAccessible::List:
        case QAccessible::Table:
        case QAccessible::Graphic:
            return true;
        default:
            return false;
    }
}

/// Below `node`, what can be acted upon and is on screen without a name.
void collectUnnamed(QAccessibleInterface& node, const std::string& path,
                    std::vector<std::string>& unnamed) {
    if (node.state().invisible) return;
    const QString name = node.text(QAccessible::Name).trimmed();
    const std::string here =
        path + "/" + (name.isEmpty() ? std::to_string(node.role()) : name.toStdString());
    if (name.isEmpty() && (isInteractive(node.role()) || node.state().focusable)) {
        const auto* widget = qobject_cast<QWidget*>(node.object());
        if (!widget || !widget->focusProxy())
            unnamed.push_back(here + (widget ? " " + pathOf(*widget) : ""));
    }
    for (int i = 0; i < node.childCount(); ++i)
        if (auto* child = node.child(i)) collectUnnamed(*child, here, unnamed);
}

std::vector<std::string> unnamedIn(QWidget& window) {
    std::vector<std::string> unnamed;
    if (auto* root = QAccessible::queryAccessibleInterface(&window))
        collectUnnamed(*root, "", unnamed);
    else
        unnamed.push_back("the window itself");
    return unnamed;
}

/// What the Tab key should come to.
std::vector<QWidget*> tabStopsOf(QWidget& window) {
    std::vector<QWidget*> stops;
    for (QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || !widget->isEnabled() || widget->focusProxy()) continue;
        if ((widget->focusPolicy() & Qt::TabFocus) == 0) continue;
        if (auto* radio = qobject_cast<QRadioButton*>(widget); radio && !radio->isChecked())
            continue;  // the arrow keys go from the chosen one to the others
        stops.push_back(widget);
    }
    return stops;
}

/// What a round of Tab presses comes to.
std::set<QWidget*> roundOfTabs(QWidget& window, Qt::Key key) {
    std::set<QWidget*> met;
    const std::size_t most = 2 * tabStopsOf(window).size() + 10;
    for (std::size_t i = 0; i < most; ++i) {
        QTest::keyClick(QApplication::focusWidget(), key);
        met.insert(QApplication::focusWidget());
    }
    return met;
}

std::vector<std::string> unreachedIn(QWidget& window, Qt::Key key) {
    const std::set<QWidget*> met = roundOfTabs(window, key);
    std::vector<std::string> unreached;
    for (QWidget* stop : tabStopsOf(window))
        if (!met.count(stop)) unreached.push_back(pathOf(*stop));
    return unreached;
}

/// Of several buttons of which one is chosen, Tab comes to one; the arrow keys go to the others.
bool anotherTakesTab(const QAbstractButton& button) {
    const auto siblings = button.parentWidget()->findChildren<QAbstractButton*>(
        QString(), Qt::FindDirectChildrenOnly);
    return std::any_of(siblings.begin(), siblings.end(), [&](const QAbstractButton* other) {
        return other != &button && other->autoExclusive() && other->isVisible() &&
               (other->focusPolicy() & Qt::TabFocus) != 0;
    });
}

/// Controls that only the mouse can work.
std::vector<std::string> mouseOnlyIn(QWidget& window) {
    std::vector<std::string> found;
    for (QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible() || !widget->isEnabled()) continue;
        const bool is_control =
            qobject_cast<QAbstractButton*>(widget) || qobject_cast<QComboBox*>(widget);
        const bool of_qt = widget->objectName().startsWith(QLatin1String("qt_")) ||
                           widget->inherits("QTabBar");
        const auto* button = qobject_cast<QAbstractButton*>(widget);
        if (button && button->autoExclusive() && anotherTakesTab(*button)) continue;
        if (is_control && !of_qt && (widget->focusPolicy() & Qt::TabFocus) == 0)
            found.push_back(pathOf(*widget));
    }
    return found;
}

using NoneOf = std::vector<std::string>;

TEST_P(EverySample, NamesEveryControlOfEveryPageAndForm) {
    onEachPage([&](const QString& page) {
        EXPECT_EQ(unnamedIn(window), NoneOf{}) << page.toStdString();
    });
    onEachForm([&](const QString& item) {
        EXPECT_EQ(unnamedIn(window), NoneOf{}) << item.toStdString();
    });
}

TEST_P(EverySample, IsReachedByTabAndBackOnEveryPage) {
    onEachPage([&](const QString& page) {
        EXPECT_EQ(unreachedIn(window, Qt::Key_Tab), NoneOf{}) << page.toStdString();
        EXPECT_EQ(unreachedIn(window, Qt::Key_Backtab), NoneOf{})
            << page.toStdString() << ", backwards";
        EXPECT_EQ(mouseOnlyIn(window), NoneOf{}) << page.toStdString();
    });
}

TEST_P(EverySample, IsReachedByTabInEveryForm) {
    onEachForm([&](const QString& item) {
        EXPECT_EQ(unreachedIn(window, Qt::Key_Tab), NoneOf{}) << item.toStdString();
        EXPECT_EQ(mouseOnlyIn(window), NoneOf{}) << item.toStdString();
    });
}

INSTANTIATE_TEST_SUITE_P(Samples, EverySample, ::testing::ValuesIn(sampleNames()),
                         [](const auto& sample) {
                             std::string name = sample.param;
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

TEST(StartWindow, NamesEveryControlAndIsReachedByTab) {
    MainWindow window{Settings{}};
    window.resize(1280, 800);
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    EXPECT_EQ(unnamedIn(window), NoneOf{});
    EXPECT_EQ(unreachedIn(window, Qt::Key_Tab), NoneOf{});
    EXPECT_EQ(mouseOnlyIn(window), NoneOf{});
}

TEST(ImportWindow, NamesEveryControlAndIsReachedByTab) {
    windowSettings().clear();
    ListingShown listing(smallSite());
    listing.dialog->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(listing.dialog.get()));
    listing.dialog->findChild<QCheckBox*>(QStringLiteral("import.leaveOut"))->click();
    EXPECT_EQ(unnamedIn(*listing.dialog), NoneOf{});
    EXPECT_EQ(unreachedIn(*listing.dialog, Qt::Key_Tab), NoneOf{});
    EXPECT_EQ(mouseOnlyIn(*listing.dialog), NoneOf{});
}

TEST(Access, AControlWithoutANameIsFound) {
    QWidget window;
    QPushButton named(QStringLiteral("Named"), &window), nameless(&window);
    nameless.move(0, 40);
    window.show();
    settle();
    EXPECT_EQ(unnamedIn(window).size(), 1u);
}

TEST(Access, AControlThatTabPassesByIsFound) {
    QWidget window;
    QPushButton first(QStringLiteral("First"), &window), mouse_only(QStringLiteral("M"), &window);
    mouse_only.setFocusPolicy(Qt::ClickFocus);
    window.show();
    settle();
    EXPECT_EQ(mouseOnlyIn(window).size(), 1u);
}

}  // namespace
}  // namespace ullage::ui
