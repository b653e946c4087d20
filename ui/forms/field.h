// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One field of a form: an editor with what is wrong written beneath it.
///
/// A field shows a part of the open site and hands edits on; it holds no data of its own but text
/// that could not be read yet. Two sources of faults: the text just typed (nothing was changed),
/// and the site's validation (the value stands, and is out of place). Neither blocks.

#include <QString>
#include <QWidget>

#include <functional>

class QLabel;
class QVBoxLayout;

namespace ullage::ui {

class Field : public QWidget {
    Q_OBJECT

public:
    /// `key` is the JSON pointer of what it edits, within the item: "/pool/width". It also makes
    /// the object names: the editor of "/pool/width" is called "pool.width".
    Field(const QString& label, const QString& key, QWidget* parent = nullptr);

    const QString& label() const { return label_; }
    const QString& key() const { return key_; }
    /// True if the field needs the whole width, with its label above.
    virtual bool isWide() const { return false; }
    /// True if the section's heading says it all: the label is for the screen reader only.
    bool isLabelledByHeading() const { return labelled_by_heading_; }
    Field* setLabelledByHeading();
    /// The control that takes the focus and that the label belongs to.
    virtual QWidget* editor() = 0;
    /// Shows the site again. Text that could not be read stays, unless `discard_typed` or the value
    /// beneath it has changed.
    virtual void refresh(bool discard_typed) = 0;
    /// Commits what is typed and not committed yet.
    virtual void commitPending() {}

    /// Fault found by validation; empty: none.
    void setProblem(const QString& text);
    /// What is shown beneath the editor, empty if nothing is wrong.
    QString shownProblem() const;

    /// A sentence about the field: tool tip and accessible description.
    Field* setHint(const QString& hint);
    Field* setShownWhen(std::function<bool()> condition);
    bool isWanted() const { return !shown_when_ || shown_when_(); }

signals:
    void labelChanged();
    /// The words beneath the editor came, changed or went.
    void problemShown();

protected:
    /// Places the editor; call once, in the constructor of the subclass.
    void setEditor(QWidget* editor, QWidget* focus);
    void setTypingProblem(const QString& text);
    const QString& typingProblem() const { return typing_problem_; }
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void showProblem();
    void colourProblem();

    QString label_, key_, hint_, problem_, typing_problem_;
    std::function<bool()> shown_when_;
    bool labelled_by_heading_ = false;
    QVBoxLayout* layout_;
    QLabel* problem_label_;
};

/// "/pool/width" → "pool.width".
QString objectNameOf(const QString& key);

}  // namespace ullage::ui
