// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What every page of an answer shares: a scrolled sheet in the palette's Base colour, a message in
/// its place while there is nothing to show, the state of the shown figures.

#include "core/findings/findings.h"
#include "ui/theme/drawn_widget.h"

#include <QScrollArea>
#include <QString>
#include <QWidget>

#include <memory>
#include <vector>

class QComboBox;
class QFrame;
class QLabel;
class QStackedWidget;
class QVBoxLayout;

namespace ullage {

class Page : public QWidget {
    Q_OBJECT

public:
    explicit Page(QWidget* parent = nullptr);

    // What is on it scrolls, so its size is not asked of what is on it: that would lay out the text of every page,
    // those out of sight too, at the start and at each edit.
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return false; }

    /// Null: nothing yet. A page out of sight in a window that is shown takes it up when it comes to sight.
    void setAnswer(std::shared_ptr<const Answer> answer);
    /// The figures shown are being made anew; they stay, paler.
    void setUpdating(bool updating);
    /// As setUpdating, for the other endings too.
    void setState(ShownState state);
    virtual void setPrefixes(Prefixes prefixes) = 0;
    /// A JSON pointer at or below an item ("/boxes/1", "/sends/0/payload"); others are ignored.
    virtual void showItem(const QString& pointer) = 0;

    const std::shared_ptr<const Answer>& answer() const { return answer_; }
    ShownState state() const { return state_; }

signals:
    /// The user chose an item on the page.
    void itemChosen(const QString& pointer);

protected:
    /// The answer, the prefixes or the choice changed.
    virtual void refresh() = 0;
    virtual void applyState() = 0;
    /// Colours and fonts of the labels.
    virtual void retheme() = 0;

    /// Shows `headline` and `detail` instead of the sheet; both empty: shows the sheet.
    void say(const QString& headline, const QString& detail);
    QVBoxLayout* sheet() const { return sheet_; }
    /// A hairline between parts of the sheet.
    QFrame* addRule();
    const std::vector<QFrame*>& rules() const { return rules_; }  ///< from the top
    /// A labelled list to choose from, with room at its sides; not in the sheet yet.
    struct Chooser {
        QWidget* row = nullptr;
        QLabel* label = nullptr;
        QComboBox* box = nullptr;
    };
    Chooser makeChooser(const QString& label, const QString& object_name);
    void changeEvent(QEvent* event) override;
    void showEvent(QShowEvent* event) override;

    /// The index in a pointer such as "/boxes/3/ceiling" for "boxes"; −1 if it is about something
    /// else.
    static int indexIn(const QString& pointer, const QString& list);

private:
    void dress();
    void refreshAll();
    bool isOutOfSight() const;

    std::shared_ptr<const Answer> answer_;
    ShownState state_ = ShownState::nothing;
    QStackedWidget* stack_ = nullptr;
    QScrollArea* scroll_ = nullptr;
    QVBoxLayout* sheet_ = nullptr;
    QLabel *headline_ = nullptr, *detail_ = nullptr;
    std::vector<QFrame*> rules_;
    bool dressing_ = false;
    bool stale_ = false;  ///< answer or state came while out of sight
};

}  // namespace ullage
