// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/chart_section.h"

#include "ui/sure/read_chart.h"
#include "ui/theme/theme.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QDialog>
#include <QEvent>
#include <QFontMetrics>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace ullage {

ChartSection::ChartSection(ReadChart* chart, const QString& name, QWidget* parent)
    : QWidget(parent), chart_(chart), table_(new NumberTable(this)) {
    setObjectName(name);
    chart_->setObjectName(name + QStringLiteral("Chart"));
    const auto label = [] {
        auto* made = new QLabel;
        made->setWordWrap(true);
        made->setTextFormat(Qt::PlainText);
        return made;
    };
    title_ = label();
    foot_ = label();
    foot_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    table_button_ = new QPushButton(tr("Show as table"));
    table_button_->setObjectName(name + QStringLiteral("Table"));
    table_button_->setAutoDefault(false);
    auto* as_table = new QAction(tr("Show as table"), this);
    as_table->setShortcut(QKeySequence(tr("Ctrl+T")));
    as_table->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    table_button_->setToolTip(tr("Every number of the chart (%1)")
                                  .arg(as_table->shortcut().toString(QKeySequence::NativeText)));
    auto* numbers = new QAction(tr("Copy numbers"), this);
    auto* picture = new QAction(tr("Copy as picture"), this);
    auto* picture_file = new QAction(tr("Save picture…"), this);
    auto* numbers_file = new QAction(tr("Export numbers…"), this);
    connect(picture, &QAction::triggered, this, [this] { this->picture().copy(); });
    connect(picture_file, &QAction::triggered, this, [this] { ask_and_save_picture(this, title(), this->picture()); });
    connect(numbers_file, &QAction::triggered, this,
            [this] { ask_and_save_numbers(this, title(), table_->commaSeparated()); });
    addAction(as_table);
    chart_->addActions({as_table, picture, numbers, picture_file, numbers_file});
    chart_->setContextMenuPolicy(Qt::ActionsContextMenu);
    connect(as_table, &QAction::triggered, this, &ChartSection::showTable);
    connect(numbers, &QAction::triggered, this, &ChartSection::copyNumbers);
    connect(table_button_, &QPushButton::clicked, this, &ChartSection::showTable);
    connect(chart_, &ReadChart::readoutChanged, this, &ChartSection::showFoot);

    constexpr int room = static_cast<int>(ring_room);
    title_->setContentsMargins(room, 0, room, 0);
    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(room, 0, room, 0);
    foot->setSpacing(12);
    foot->addWidget(foot_, 1);
    foot->addWidget(table_button_, 0, Qt::AlignTop);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(3);
    all->addWidget(title_);
    all->addWidget(chart_);
    all->addLayout(foot);
    retheme();
}

void ChartSection::refresh(const QString& note, const QString& why, NumberTable::Content content) {
    const bool has = chart_->hasData();
    title_->setText(chart_->title());
    note_ = has ? note : why;
    chart_->setVisible(has);
    table_button_->setVisible(has);
    for (QAction* action : actions()) action->setEnabled(has);
    table_->setContent(std::move(content));
    if (dialog_) dialog_->setWindowTitle(title());
    table_button_->setAccessibleDescription(title());
    setAccessibleName(title());
    retheme();
}

void ChartSection::setState(ShownState state) {
    chart_->setState(state);
    retheme();
}

QString ChartSection::title() const { return title_->text(); }
QString ChartSection::foot() const { return foot_->text(); }

void ChartSection::showFoot() {
    const QString words = chart_->readout();
    const Theme theme = Theme::of(palette());
    foot_->setText(words.isEmpty() ? note_ : words);
    set_text_colour(*foot_, words.isEmpty() ? theme.muted : theme.ink);
}

void ChartSection::showTable() {
    if (dialog_) {
        dialog_->raise();
        dialog_->activateWindow();
        return;
    }
    dialog_ = show_table(this, objectName() + QStringLiteral("TableDialog"), title(), table_,
                         [this] { copyNumbers(); });
}

ExportPicture ChartSection::picture() const {
    constexpr int width = 900;
    return {title(), QSize(width, chart_->heightForWidth(width)), Theme::of(palette()).surface,
            [this](QPainter& painter, const QRectF& place) { chart_->paintTo(painter, place, palette(), font()); }};
}

void ChartSection::copyNumbers() const {
    QApplication::clipboard()->setText(table_->tabSeparated());
}

void ChartSection::retheme() {
    if (retheming_) return;
    retheming_ = true;
    const Theme theme = Theme::of(palette());
    const Theme shown = out_of_date(chart_->state()) ? faded(theme) : theme;
    title_->setFont(scaled(font(), 1.25, QFont::DemiBold));
    set_text_colour(*title_, shown.ink);
    foot_->setFont(scaled(font(), 0.9));
    // Room for three lines, so that reading a value does not move what stands beneath.
    foot_->setMinimumHeight(chart_->hasData() ? 3 * QFontMetrics(foot_->font()).lineSpacing() : 0);
    showFoot();
    retheming_ = false;
}

void ChartSection::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange)
        retheme();
}

}  // namespace ullage
