# SPDX-License-Identifier: GPL-3.0-or-later
# The bytes of IN as an array of C++ in OUT: ullage::NAME and ullage::NAME_bytes.
file(READ ${IN} bytes HEX)
string(LENGTH "${bytes}" digits)
math(EXPR length "${digits} / 2")
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
file(WRITE ${OUT} "namespace ullage {
extern const unsigned char ${NAME}[];
extern const unsigned long ${NAME}_bytes;
const unsigned char ${NAME}[] = {${bytes}};
const unsigned long ${NAME}_bytes = ${length};
}
")
