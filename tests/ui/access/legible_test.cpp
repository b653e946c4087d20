// SPDX-License-Identifier: GPL-3.0-or-later
// Text that can be read: its contrast, and that none of it is cut.
#include "tests/ui/access/listing_shown.h"
#include "tests/ui/access/sample_window.h"
#include "tests/ui/window/small.h"
#include "ui/theme/theme.h"
#include "ui/window/look.h"
#include "ui/window/outlined_checks.h"
#include "ui/window/window_settings.h"

#include <QAbstractButton>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <QStyle>
#include <QStyleOptionButton>
#include <QStyleOptionComboBox>
#include <QStyledItemDelegate>
#include <QTabBar>
#include <QTableView>

#include <algorithm>

namespace ullage::ui {
namespace {

using NoneOf = std::vector<std::string>;

// Source: WCAG 2.2, success criterion 1.4.3.
constexpr double least_contrast = 4.5;

/// What a widget without a ground of its own is seen on.
QColor groundOf(const QWidget& widget) {
    for (const QWidget* at = &widget; at; at = at->parentWidget())
        if (at->autoFillBackground() || at->isWindow())
            return at->palette().color(at->backgroundRole());
    return widget.palette().color(QPalette::Window);
}

struct TextOnGround {
    QString text;
    QColor ink, ground;
};

/// The text that a widget of Qt's own shows, with its colours; nothing for others and for disabled
/// ones, which the source exempts.
std::vector<TextOnGround> textOf(const QWidget& widget) {
    const QPalette colours = widget.palette();
    if (!widget.isEnabled()) return {};
    if (const auto* label = qobject_cast<const QLabel*>(&widget))
        return {{label->text(), colours.color(widget.foregroundRole()), groundOf(widget)}};
    if (const auto* edit = qobject_cast<const QLineEdit*>(&widget)) {
        const QColor ground = colours.color(QPalette::Base);
        return {{edit->text(), colours.color(QPalette::Text), ground},
                {edit->placeholderText(), colours.color(QPalette::PlaceholderText), ground},
                {edit->text(), colours.color(QPalette::HighlightedText),
                 colours.color(QPalette::Highlight)}};
    }
    if (const auto* combo = qobject_cast<const QComboBox*>(&widget))
        return {{combo->currentText(), colours.color(QPalette::ButtonText),
                 colours.color(QPalette::Button)}};
    if (const auto* button = qobject_cast<const QAbstractButton*>(&widget)) {
        const bool flat = button->inherits("QCheckBox") || button->inherits("QRadioButton");
        return {{button->text(),
                 colours.color(flat ? QPalette::WindowText : QPalette::ButtonText),
                 flat ? groundOf(widget) : colours.color(QPalette::Button)}};
    }
    if (qobject_cast<const QAbstractItemView*>(&widget))
        return {{QStringLiteral("rows"), colours.color(QPalette::Text),
                 colours.color(QPalette::Base)}};
    return {};
}

std::vector<std::string> faintIn(const QWidget& window) {
    std::vector<std::string> faint;
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible()) continue;
        for (const TextOnGround& shown : textOf(*widget)) {
            if (shown.text.isEmpty()) continue;
            const double ratio = contrast(shown.ink, shown.ground);
            if (ratio < least_contrast)
                faint.push_back(std::to_string(ratio) + " " + shown.ink.name().toStdString() +
                                " on " + shown.ground.name().toStdString() + ": \"" +
                                shown.text.left(30).toStdString() + "\" " + pathOf(*widget));
        }
    }
    return faint;
}

// What is cut --------------------------------------------------------------------------------

bool labelIsCut(const QLabel& label) {
    if (label.text().isEmpty()) return false;
    if (label.wordWrap()) return label.height() < label.heightForWidth(label.width());
    return label.width() < label.sizeHint().width() || label.height() < label.sizeHint().height();
}

bool buttonIsCut(const QAbstractButton& button) {
    if (button.text().isEmpty()) return false;
    if (button.hasHeightForWidth()) return button.height() < button.heightForWidth(button.width());
    const QSize need = button.fontMetrics().size(Qt::TextShowMnemonic, button.text());
    return button.width() < need.width() || button.height() < need.height();
}

/// A cell's text, wrapped if the table wraps, against the room the style leaves for it.
bool cellIsCut(const QTableView& table, const QModelIndex& cell) {
    const int margin =
        1 + table.style()->pixelMetric(QStyle::PM_FocusFrameHMargin, nullptr, &table);
    const QSize room(table.columnWidth(cell.column()) - 2 * margin - (table.showGrid() ? 1 : 0),
                     table.rowHeight(cell.row()));
    const auto* delegate =
        qobject_cast<const QStyledItemDelegate*>(table.itemDelegateForIndex(cell));
    const QString text = delegate->displayText(cell.data(Qt::DisplayRole), table.locale());
    const int flags = table.wordWrap() ? Qt::TextWordWrap : 0;
    const QRect need =
        table.fontMetrics().boundingRect(QRect(0, 0, room.width(), 1 << 14), flags, text);
    return need.width() > room.width() || need.height() > room.height();
}

/// Columns too narrow for a cell or for their header; rows too low.
std::vector<std::string> cutCellsOf(const QTableView& table) {
    std::vector<std::string> cut;
    const QAbstractItemModel& model = *table.model();
    for (int c = 0; c < model.columnCount(); ++c) {
        if (table.isColumnHidden(c)) continue;
        const QString title = model.headerData(c, Qt::Horizontal).toString();
        if (table.horizontalHeader()->isVisible() &&
            table.horizontalHeader()->sectionSizeHint(c) > table.columnWidth(c))
            cut.push_back("header \"" + title.toStdString() + "\"");
        for (int r = 0; r < model.rowCount(); ++r) {
            if (cellIsCut(table, model.index(r, c)))
                cut.push_back("cell \"" +
                              model.index(r, c).data(Qt::DisplayRole).toString().toStdString() +
                              "\"");
        }
    }
    return cut;
}

bool comboIsCut(const QComboBox& combo) {
    QStyleOptionComboBox option;
    option.initFrom(&combo);
    const QRect room = combo.style()->subControlRect(QStyle::CC_ComboBox, &option,
                                                     QStyle::SC_ComboBoxEditField, &combo);
    return combo.fontMetrics().horizontalAdvance(combo.currentText()) > room.width();
}

std::vector<std::string> cutIn(const QWidget& window) {
    std::vector<std::string> cut;
    const auto add = [&](const QString& text, const QWidget& widget) {
        cut.push_back("\"" + text.left(60).toStdString() + "\" " +
                      std::to_string(widget.width()) + "x" + std::to_string(widget.height()) +
                      " " + pathOf(widget));
    };
    for (const QWidget* widget : window.findChildren<QWidget*>()) {
        if (!widget->isVisible()) continue;
        if (const auto* label = qobject_cast<const QLabel*>(widget); label && labelIsCut(*label))
            add(label->text(), *label);
        if (const auto* button = qobject_cast<const QAbstractButton*>(widget);
            button && buttonIsCut(*button))
            add(button->text(), *button);
        if (const auto* combo = qobject_cast<const QComboBox*>(widget); combo && comboIsCut(*combo))
            add(combo->currentText(), *combo);
        if (const auto* bar = qobject_cast<const QTabBar*>(widget))
            for (int i = 0; i < bar->count(); ++i)
                if (!bar->rect().contains(bar->tabRect(i))) add(bar->tabText(i), *bar);
        if (const auto* table = qobject_cast<const QTableView*>(widget))
            for (const std::string& cell : cutCellsOf(*table))
                add(QString::fromStdString(cell), *table);
        if (const auto* area = qobject_cast<const QScrollArea*>(widget);
            area && area->horizontalScrollBar()->maximum() > 0)
            add(QStringLiteral("reaches past the right edge"), *area);
    }
    return cut;
}

TEST_P(EverySample, HasTextOfEnoughContrastInLightAndDark) {
    for (const ThemeChoice theme : {ThemeChoice::light, ThemeChoice::dark}) {
        window.setTheme(theme);
        onEachPage([&](const QString& page) {
            EXPECT_EQ(faintIn(window), NoneOf{}) << page.toStdString();
        });
        onEachForm([&](const QString& item) {
            EXPECT_EQ(faintIn(window), NoneOf{}) << item.toStdString();
        });
    }
    window.setTheme(ThemeChoice::system);
}

TEST_P(EverySample, CutsNoTextOnAnyPageOrForm) {
    onEachPage([&](const QString& page) {
        EXPECT_EQ(cutIn(window), NoneOf{}) << page.toStdString();
    });
    onEachForm([&](const QString& item) {
        EXPECT_EQ(cutIn(window), NoneOf{}) << item.toStdString();
    });
}

TEST(StartWindow, HasTextOfEnoughContrastAndCutsNone) {
    MainWindow window{Settings{}};
    window.resize(1280, 800);
    window.show();
    for (const ThemeChoice theme : {ThemeChoice::light, ThemeChoice::dark}) {
        window.setTheme(theme);
        settle();
        EXPECT_EQ(faintIn(window), NoneOf{});
        EXPECT_EQ(cutIn(window), NoneOf{});
    }
    window.setTheme(ThemeChoice::system);
}

TEST(StartWindow, DressedAnewBeforeItIsShownHasTextOfEnoughContrast) {
    MainWindow window{Settings{}};
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.setTheme(ThemeChoice::dark);
    window.show();
    window.document().start(Site{});
    settle();
    EXPECT_EQ(faintIn(window), NoneOf{});
    window.setTheme(ThemeChoice::system);
}

TEST(ImportWindow, HasTextOfEnoughContrastAndCutsNone) {
    windowSettings().clear();
    for (const ThemeChoice theme : {ThemeChoice::light, ThemeChoice::dark}) {
        applyTheme(theme);
        ListingShown listing(smallSite());
        EXPECT_EQ(faintIn(*listing.dialog), NoneOf{});
        EXPECT_EQ(cutIn(*listing.dialog), NoneOf{});
    }
    applyTheme(ThemeChoice::system);
}

/// The least contrast of an unticked box's outline against its inside.
double outlineContrast(const QStyle& style, const QPalette& colours) {
    const QRect box(2, 2, 15, 15);
    QStyleOptionButton option;
    option.rect = box;
    option.palette = colours;
    option.state = QStyle::State_Enabled | QStyle::State_Off;
    QImage image(19, 19, QImage::Format_RGB32);
    image.fill(colours.color(QPalette::Window));
    {
        QPainter painter(&image);
        style.drawPrimitive(QStyle::PE_IndicatorCheckBox, &option, &painter);
    }
    double least = 21;
    for (int i = 2; i < 12; ++i)
        for (const QPoint& at : {QPoint(box.left(), box.top() + i), QPoint(box.left() + i, box.top()),
                                 QPoint(box.right(), box.top() + i), QPoint(box.left() + i, box.bottom())})
            least = std::min(least, contrast(image.pixelColor(at), colours.color(QPalette::Base)));
    return least;
}

// Source: WCAG 2.2, success criterion 1.4.11.
TEST(CheckBoxes, HaveAnOutlineThatIsSeenInLightAndDark) {
    const OutlinedChecks outlined;
    for (const QPalette& colours : {light_palette(), dark_palette()})
        EXPECT_GE(outlineContrast(outlined, colours), 3);
    EXPECT_LT(outlineContrast(*outlined.baseStyle(), dark_palette()), 3) << "the style below needs no help";
    applyTheme(ThemeChoice::dark);
    EXPECT_TRUE(qobject_cast<OutlinedChecks*>(QApplication::style()));
    applyTheme(ThemeChoice::system);
}

TEST(Legible, FaintAndCutTextAreFound) {
    QWidget window;
    QLabel faint(QStringLiteral("Faint"), &window), cut(QStringLiteral("Cut off"), &window);
    QPalette pale;
    pale.setColor(QPalette::WindowText, QColor(0xCC, 0xCC, 0xCC));
    pale.setColor(QPalette::Window, Qt::white);
    faint.setAutoFillBackground(true);
    faint.setPalette(pale);
    cut.setGeometry(0, 40, 20, 20);
    window.show();
    settle();
    EXPECT_EQ(faintIn(window).size(), 1u);
    EXPECT_EQ(cutIn(window).size(), 1u);
}

}  // namespace
}  // namespace ullage::ui
