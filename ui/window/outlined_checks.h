// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The desktop's style, with check boxes whose outline can be seen: Qt's own style draws it darker than the
/// window, which a dark window swallows.
/// Source: WCAG 2.2, 1.4.11 (3 : 1 for what tells a control from its ground).

#include <QProxyStyle>

namespace ullage::ui {

class OutlinedChecks : public QProxyStyle {
    Q_OBJECT

public:
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget = nullptr) const override;
};

}  // namespace ullage::ui
