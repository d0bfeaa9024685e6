#include "desk/lab/image_kind.h"

#include <gtest/gtest.h>

#include <string>

namespace heatwork::desk {
namespace {

using namespace std::string_view_literals;

TEST(ImageKind, IsToldByHowTheBytesBegin) {
  EXPECT_EQ(image_kind("\xFF\xD8\xFF\xE0 and so on"sv), "JPEG");
  EXPECT_EQ(image_kind("\x89PNG\r\n\x1A\n..."sv), "PNG");
  EXPECT_EQ(image_kind("RIFF\x10\0\0\0WEBPVP8 "sv), "WebP");
  EXPECT_EQ(image_kind("\0\0\0\x18"
                       "ftypheic\0\0\0\0"sv),
            "HEIC");
  EXPECT_EQ(image_kind("II*\0\x08"sv), "TIFF");
  EXPECT_EQ(image_kind("MM\0*\0"sv), "TIFF");
}

TEST(ImageKind, WhatIsNoPhotoIsNone) {
  for (const std::string_view bytes :
       {""sv, "\xFF\xD8"sv, "%PDF-1.7"sv, "<svg xmlns='http://www.w3.org/2000/svg'/>"sv, "RIFF\x10\0\0\0WAVEfmt "sv, "RIFF1234WEB"sv,
        "\0\0\0\x18"
        "ftypmp42"sv,
        "MZ\x90\0"sv, "\x89PNG\n\x1A\n"sv})
    EXPECT_EQ(image_kind(bytes), "") << bytes;
}

}  // namespace
}  // namespace heatwork::desk
