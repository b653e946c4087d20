// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/table_field.h"

#include "ui/theme/theme.h"
#include "ui/window/look.h"

#include <QApplication>
#include <QComboBox>
#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QStyledItemDelegate>
#include <QTableWidget>
#include <QToolButton>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {

/// Shows and edits the value of a cell as one of the column's choices.
class ChoiceDelegate : public QStyledItemDelegate {
public:
    ChoiceDelegate(QList<Choice> choices, QObject* parent)
        : QStyledItemDelegate(parent), choices_(std::move(choices)) {}

    QString displayText(const QVariant& value, const QLocale&) const override {
        for (const Choice& choice : choices_)
            if (choice.value == value.toString()) return choice.text;
        return value.toString();
    }
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&,
                          const QModelIndex& index) const override {
        auto* combo = new QComboBox(parent);
        for (const Choice& choice : choices_) combo->addItem(choice.text, choice.value);
        combo->setAccessibleName(
            index.model()->headerData(index.column(), Qt::Horizontal).toString());
        connect(combo, &QComboBox::activated, this, [this, combo] {
            auto* self = const_cast<ChoiceDelegate*>(this);
            emit self->commitData(combo);
            emit self->closeEditor(combo);
        });
        return combo;
    }
    void setEditorData(QWidget* editor, const QModelIndex& index) const override {
        auto* combo = static_cast<QComboBox*>(editor);
        combo->setCurrentIndex(combo->findData(index.data(Qt::EditRole)));
    }
    void setModelData(QWidget* editor, QAbstractItemModel* model,
                      const QModelIndex& index) const override {
        model->setData(index, static_cast<QComboBox*>(editor)->currentData(), Qt::EditRole);
    }

private:
    QList<Choice> choices_;
};

}  // namespace

TableField::TableField(const QString& label, const QString& key, QList<Column> columns,
                       Binding binding, QWidget* parent)
    : Field(label, key, parent),
      columns_(std::move(columns)),
      binding_(std::move(binding)),
      body_(new QWidget(this)),
      table_(new QTableWidget(body_)),
      empty_(quietLabel({}, body_)) {
    auto* column = new QVBoxLayout(body_);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    column->addWidget(empty_);
    column->addWidget(table_);

    table_->setColumnCount(static_cast<int>(columns_.size()));
    for (int c = 0; c < table_->columnCount(); ++c) {
        auto* header = new QTableWidgetItem(columns_[c].title);
        header->setToolTip(columns_[c].hint);
        header->setTextAlignment(Qt::AlignLeft | Qt::AlignVCenter);
        table_->setHorizontalHeaderItem(c, header);
        if (!columns_[c].choices.isEmpty())
            table_->setItemDelegateForColumn(c, new ChoiceDelegate(columns_[c].choices, table_));
    }
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setMinimumSectionSize(controlHeight(this));
    table_->verticalHeader()->setDefaultSectionSize(controlHeight(this));
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->horizontalHeader()->setMinimumSectionSize(20);
    table_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                            QAbstractItemView::AnyKeyPressed | QAbstractItemView::SelectedClicked);
    // Tab goes on to the next field; the arrow keys walk the cells.
    table_->setTabKeyNavigation(false);
    table_->installEventFilter(this);
    table_->viewport()->installEventFilter(this);

    buttons_ = new QHBoxLayout;
    buttons_->setContentsMargins(0, 0, 0, 0);
    buttons_->setSpacing(4);
    column->addLayout(buttons_);
    add_ = addButton(tr("Add"), QStringLiteral("add"));
    remove_ = addButton(tr("Remove"), QStringLiteral("remove"));
    connect(add_, &QToolButton::clicked, this, [this] {
        unread_.clear();
        setTypingProblem(binding_.add());
        if (table_->rowCount() > 0) table_->setCurrentCell(table_->rowCount() - 1, 0);
    });
    connect(remove_, &QToolButton::clicked, this, [this] {
        const int row = table_->currentRow();
        if (row < 0) return;
        unread_.clear();
        setTypingProblem(binding_.remove(row));
    });
    if (binding_.move) {
        up_ = addButton(tr("Up"), QStringLiteral("up"));
        down_ = addButton(tr("Down"), QStringLiteral("down"));
        const auto move = [this](int by) {
            const int row = table_->currentRow(), column_now = table_->currentColumn();
            if (row < 0 || row + by < 0 || row + by >= table_->rowCount()) return;
            unread_.clear();
            setTypingProblem(binding_.move(row, by));
            table_->setCurrentCell(row + by, column_now);
        };
        connect(up_, &QToolButton::clicked, this, [move] { move(-1); });
        connect(down_, &QToolButton::clicked, this, [move] { move(1); });
    }
    buttons_->addStretch();

    setEditor(body_, table_);
    connect(table_, &QTableWidget::cellChanged, this, &TableField::cellChanged);
    connect(table_, &QTableWidget::currentCellChanged, this, &TableField::updateButtons);
    setEmptyText(tr("None."));
    colourSelection();
}

QToolButton* TableField::addButton(const QString& text, const QString& name) {
    auto* button = new QToolButton(body_);
    button->setText(text);
    button->setObjectName(QStringLiteral("%1.%2").arg(objectNameOf(key()), name));
    button->setAccessibleName(QStringLiteral("%1: %2").arg(label(), text));
    button->setFocusPolicy(Qt::StrongFocus);
    button->setMinimumHeight(controlHeight(this));
    buttons_->addWidget(button);
    return button;
}

TableField* TableField::setEmptyText(const QString& text) {
    empty_->setText(text);
    return this;
}

QWidget* TableField::editor() { return table_; }

void TableField::refresh(bool discard_typed) {
    const QList<QStringList> rows = binding_.rows();
    if (discard_typed || rows.size() != shown_.size()) unread_.clear();
    filling_ = true;
    const int row_before = table_->currentRow();
    table_->setRowCount(static_cast<int>(rows.size()));
    for (int r = 0; r < table_->rowCount(); ++r) {
        for (int c = 0; c < table_->columnCount(); ++c) {
            QTableWidgetItem* cell = table_->item(r, c);
            if (!cell) {
                cell = new QTableWidgetItem;
                table_->setItem(r, c, cell);
            }
            const auto unread = unread_.find({r, c});
            if (unread != unread_.end() && unread->beneath != rows[r][c]) unread_.erase(unread);
            const QString text = unread_.contains({r, c}) ? unread_[{r, c}].typed : rows[r][c];
            if (cell->text() != text) cell->setText(text);
        }
    }
    if (row_before < 0 && table_->rowCount() > 0) table_->setCurrentCell(0, 0);
    shown_ = rows;
    filling_ = false;
    table_->setVisible(!rows.isEmpty());
    empty_->setVisible(rows.isEmpty());
    // Tab would stand still in front of a proxy that is not on screen.
    setFocusProxy(rows.isEmpty() ? static_cast<QWidget*>(add_) : table_);
    showFaults();
    fitColumns();
    updateButtons();
}

void TableField::commitPending() {
    // An open editor commits when it loses the focus.
    const QWidget* focused = QApplication::focusWidget();
    if (focused && table_->viewport()->isAncestorOf(focused)) table_->setFocus();
}

void TableField::cellChanged(int row, int column) {
    if (filling_ || row >= shown_.size()) return;
    const QString typed = table_->item(row, column)->text();
    unread_.remove({row, column});
    if (typed != shown_[row][column]) {
        const QString refusal = binding_.commit(row, column, typed);
        if (!refusal.isEmpty()) unread_[{row, column}] = {shown_[row][column], typed, refusal};
    }
    refresh(false);
}

void TableField::showFaults() {
    filling_ = true;
    QStringList sentences;
    for (int r = 0; r < table_->rowCount(); ++r) {
        for (int c = 0; c < table_->columnCount(); ++c) {
            QTableWidgetItem* cell = table_->item(r, c);
            const auto unread = unread_.constFind({r, c});
            const bool is_faulty = unread != unread_.constEnd();
            cell->setForeground(is_faulty ? QBrush(faultColour(palette())) : QBrush());
            cell->setToolTip(is_faulty ? unread->fault : columns_[c].hint);
            if (is_faulty)
                sentences << tr("Row %1, %2: %3").arg(r + 1).arg(columns_[c].title, unread->fault);
        }
    }
    filling_ = false;
    setTypingProblem(sentences.join(QLatin1Char('\n')));
}

/// The present cell is tinted, not shouted, and its text keeps its colour.
void TableField::colourSelection() {
    const QPalette base = QApplication::palette();
    QPalette colours;
    colours.setColor(QPalette::Highlight, Theme::of(base).chosen);
    colours.setColor(QPalette::HighlightedText, base.color(QPalette::Text));
    if (table_->palette().color(QPalette::Highlight) != Theme::of(base).chosen)
        table_->setPalette(colours);
}

void TableField::fitHeight() {
    int height = table_->horizontalHeader()->sizeHint().height() + 2 * table_->frameWidth();
    for (int r = 0; r < table_->rowCount(); ++r) height += table_->rowHeight(r);
    table_->setFixedHeight(height);
}

void TableField::fitColumns() {
    int weights = 0;
    for (const Column& column : std::as_const(columns_)) weights += column.weight;
    int left = table_->viewport()->width();
    for (int c = 0; c < table_->columnCount(); ++c) {
        const bool is_last = c + 1 == table_->columnCount();
        const int width =
            is_last ? left : table_->viewport()->width() * columns_[c].weight / weights;
        table_->setColumnWidth(c, width);
        left -= width;
    }
    table_->resizeRowsToContents();  // long texts are wrapped
    fitHeight();
}

void TableField::updateButtons() {
    const int row = table_->currentRow();
    remove_->setEnabled(row >= 0 && table_->rowCount() > 0);
    if (up_) up_->setEnabled(row > 0);
    if (down_) down_->setEnabled(row >= 0 && row + 1 < table_->rowCount());
}

bool TableField::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_->viewport() && event->type() == QEvent::Resize) fitColumns();
    if (watched == table_) {
        if (event->type() == QEvent::KeyPress &&
            static_cast<QKeyEvent*>(event)->key() == Qt::Key_Delete) {
            remove_->click();
            return true;
        }
    }
    return Field::eventFilter(watched, event);
}

void TableField::changeEvent(QEvent* event) {
    Field::changeEvent(event);
    if (event->type() != QEvent::PaletteChange) return;
    colourSelection();
    if (table_->rowCount() > 0) showFaults();
}

}  // namespace ullage::ui
