// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A bar across the top of the window for what went wrong or is offered: it waits, and never
/// blocks.
///
/// One message at a time; a newer one takes its place. The text is announced to assistive
/// technology.

#include <QFrame>
#include <QList>
#include <QString>

#include <functional>

class QHBoxLayout;
class QLabel;
class QPushButton;
class QToolButton;

namespace ullage::ui {

class MessageBar : public QFrame {
    Q_OBJECT

public:
    enum class Kind { notice, fault };
    struct Action {
        QString text;
        std::function<void()> run;  ///< the bar closes first
    };

    explicit MessageBar(QWidget* parent = nullptr);

    /// `subject` names what the message is about, so that `clear` takes back only that one.
    void show(Kind kind, const QString& subject, const QString& text,
              const QList<Action>& actions = {});
    void clear(const QString& subject);
    void clearAll();
    QString text() const;
    QString subject() const { return subject_; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Kind kind_ = Kind::notice;
    QString subject_;
    QLabel* text_;
    QHBoxLayout* row_;
    QList<QPushButton*> buttons_;
    QToolButton* close_;
};

}  // namespace ullage::ui
