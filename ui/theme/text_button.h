// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A button that is a sentence: wrapped to its width, underlined under the pointer, with an
/// arrowhead at its end that says it leads somewhere.

#include "ui/theme/drawn_button.h"

namespace ullage {

class TextButton : public DrawnButton {
    Q_OBJECT

public:
    explicit TextButton(QWidget* parent = nullptr);

    int heightForWidth(int width) const override;
    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QRect textPlace(int width) const;
};

}  // namespace ullage
