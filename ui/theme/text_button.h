// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A button that is a sentence: wrapped to its width, underlined under the pointer, with an
/// arrowhead at its end that says it leads somewhere.

#include <QAbstractButton>

namespace ullage {

class TextButton : public QAbstractButton {
    Q_OBJECT

public:
    explicit TextButton(QWidget* parent = nullptr);

    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    QRect textPlace(int width) const;
};

}  // namespace ullage
