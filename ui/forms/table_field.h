// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A small table as a field: rungs of a ladder, hours of a week, events, wrappers.
///
/// Each cell is text or one of a few choices and commits alone, as one undoable edit. A cell that
/// cannot be read keeps what was typed, is marked, and its fault is written beneath the table. As
/// tall as its rows: the form scrolls, not the table.

#include "ui/forms/choice_field.h"

#include <QList>
#include <QMap>
#include <QStringList>

#include <functional>

class QHBoxLayout;
class QLabel;
class QTableWidget;
class QToolButton;

namespace ullage::ui {

class TableField : public Field {
    Q_OBJECT

public:
    struct Column {
        QString title;
        int weight = 1;         ///< of the width
        QList<Choice> choices;  ///< empty: free text
        QString hint;
    };
    struct Binding {
        std::function<QList<QStringList>()> rows;  ///< a value for each column
        /// Each returns why not, or an empty text.
        std::function<QString(int row, int column, const QString& text)> commit;
        std::function<QString()> add;  ///< a row at the end
        std::function<QString(int row)> remove;
        std::function<QString(int row, int by)> move;  ///< empty: the order has no meaning
    };

    TableField(const QString& label, const QString& key, QList<Column> columns, Binding binding,
               QWidget* parent = nullptr);

    bool isWide() const override { return true; }
    QWidget* editor() override;
    void refresh(bool discard_typed) override;
    void commitPending() override;

    QTableWidget* table() { return table_; }
    /// Says what an empty table means, in its place ("Always open").
    TableField* setEmptyText(const QString& text);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    struct Unread {
        QString beneath, typed, fault;
    };

    void cellChanged(int row, int column);
    void showFaults();
    void colourSelection();
    void fitHeight();
    void fitColumns();
    void updateButtons();
    QToolButton* addButton(const QString& text, const QString& name);

    QList<Column> columns_;
    Binding binding_;
    QWidget* body_;
    QTableWidget* table_;
    QLabel* empty_;
    QHBoxLayout* buttons_;
    QToolButton *add_, *remove_, *up_ = nullptr, *down_ = nullptr;
    QList<QStringList> shown_;
    QMap<QPair<int, int>, Unread> unread_;
    bool filling_ = false;
};

}  // namespace ullage::ui
