// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A form: sections of fields for one kind of item, on the item with a given index.
///
/// A subclass lists its fields in its constructor; everything else is here: layout (one label
/// column of the same width in every form), refreshing, showing what validation says beside the
/// field that it points at, and which fields are wanted at all. Sections can be folded; one with a
/// fault unfolds.

#include "core/units/problem.h"
#include "ui/document/item_ref.h"
#include "ui/forms/field.h"

#include <QList>
#include <QWidget>

class QGridLayout;
class QLabel;
class QToolButton;

namespace ullage::ui {

class SiteDocument;

class Form : public QWidget {
    Q_OBJECT

public:
    Form(SiteDocument& document, ItemKind kind, QWidget* parent = nullptr);

    ItemKind kind() const { return item_.kind; }
    /// Shows another item of the kind; typed text that could not be read is dropped.
    void setIndex(int index);
    /// Shows the site again. Does nothing if the item no longer exists.
    void refresh();
    /// All of the site's; those of this item find their field.
    void setProblems(const Problems& problems);
    /// Gives the focus to the field of a pointer, and unfolds its section; false if there is none.
    bool focusField(const QString& pointer);
    /// Gives the focus to the first field.
    void focusFirst();
    void commitPending();

protected:
    SiteDocument& document() const { return document_; }
    ItemRef item() const { return item_; }
    QString pointerTo(const QString& key) const { return pointerOf(item_) + key; }
    /// The text of an edit's undo step: "attic: ceiling".
    QString describe(const QString& label) const;

    void beginSection(const QString& title, bool folded = false);
    template <class F>
    F* add(F* field) {
        addField(field);
        return field;
    }
    /// A quiet sentence across the form.
    void addNote(const QString& text);

    /// Runs an edit of the site as one undo step; returns why not, or an empty text.
    QString commit(const QString& label, const QString& key,
                   const std::function<QString(Site&)>& edit) const;

private:
    struct Row {
        Field* field = nullptr;
        QWidget* label = nullptr;
        int section = -1;
    };
    struct Section {
        QWidget* spacer = nullptr;
        QToolButton* heading = nullptr;
        QList<QWidget*> notes;
        bool folded = false;
    };

    void addField(Field* field);
    void updateVisibility();
    void setFolded(int section, bool folded);

    SiteDocument& document_;
    ItemRef item_;
    QGridLayout* grid_;
    QLabel* stray_problems_;
    QList<Row> rows_;
    QList<Section> sections_;
    int next_row_ = 0;
};

}  // namespace ullage::ui
