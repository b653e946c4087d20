// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Sentences beneath one another, each a button that leads to what it is about.

#include <QString>
#include <QWidget>

#include <vector>

class QVBoxLayout;

namespace ullage {

class TextButton;

struct Sentence {
    QString text, pointer;
};

class SentenceList : public QWidget {
    Q_OBJECT

public:
    /// The buttons are named `name` and their number.
    explicit SentenceList(const QString& name, QWidget* parent = nullptr);

    void setSentences(const std::vector<Sentence>& wanted);
    /// From the top.
    const std::vector<TextButton*>& buttons() const { return buttons_; }

signals:
    void chosen(const QString& pointer);

private:
    QWidget* reachedBefore() const;

    QString name_;
    QVBoxLayout* list_;
    std::vector<TextButton*> buttons_;
};

}  // namespace ullage
