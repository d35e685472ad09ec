// One red pixel in a format that ours and stb_image read alike, and the same question to both: how red is it?
#pragma once

#include <array>

inline constexpr std::array<unsigned char, 14> one_pixel = {'P', '6', '\n', '1',  ' ', '1', '\n',
                                                            '2', '5', '5',  '\n', 200, 10,  20};

int red_in_one();                 // ours, from one.cpp
int red_in_two();                 // ours, from two.cpp
int red_with_own_stb();           // the user's stb, in a file of its own
int red_with_own_stb_declared();  // both; the user's stb is only declared, before ours
int red_with_own_stb_before();    // both; the user's stb in full, before ours
int red_with_own_stb_after();     // both; the user's stb in full, after ours
