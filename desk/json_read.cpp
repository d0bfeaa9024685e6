// Our own small reader, because a request that says NaN, or says a key twice, must be refused by the name of that key, with line and
// column.
#include <fmt/core.h>

#include <charconv>
#include <cstdlib>
#include <limits>
#include <string>

#include "desk/errors.h"
#include "desk/json_value.h"
#include "trade/utf8.h"

namespace heatwork::desk {
namespace {

constexpr int deepest = 32;

void append_utf8(std::string& out, unsigned code) {
  const auto put = [&](unsigned byte) { out += static_cast<char>(byte); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0 | code >> 6);
    put(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    put(0xE0 | code >> 12);
    put(0x80 | (code >> 6 & 0x3F));
    put(0x80 | (code & 0x3F));
  } else {
    put(0xF0 | code >> 18);
    put(0x80 | (code >> 12 & 0x3F));
    put(0x80 | (code >> 6 & 0x3F));
    put(0x80 | (code & 0x3F));
  }
}

class Reader {
 public:
  Reader(std::string_view name, std::string_view text) : name_(name), text_(text) {}

  Json whole() {
    if (const std::size_t wrong = trade::first_wrong_byte(text_); wrong != std::string_view::npos) {
      at_ = wrong;
      refuse("the bytes here are not UTF-8");
    }
    if (text_.starts_with("\xEF\xBB\xBF")) refuse("the text begins with a byte order mark; JSON has none");
    skip_space();
    if (at_ == text_.size()) refuse("the text is empty; a JSON object, or a list of them, is expected");
    Json value = read_value(0);
    skip_space();
    if (at_ != text_.size()) refuse("something follows the end of the JSON value; nothing may");
    return value;
  }

 private:
  [[noreturn]] void refuse(std::string_view what) const {
    int line = 1;
    std::size_t start = 0;
    for (std::size_t i = 0; i < at_ && i < text_.size(); ++i) {
      if (text_[i] == '\n') {
        ++line;
        start = i + 1;
      }
    }
    int column = 1;
    for (std::size_t i = start; i < at_ && i < text_.size(); ++i) column += (static_cast<unsigned char>(text_[i]) & 0xC0) != 0x80;
    throw Failure(ErrorWord::bad_json, fmt::format("{}:{}:{}: {}.", name_, line, column, what));
  }

  [[nodiscard]] char here() const { return at_ < text_.size() ? text_[at_] : '\0'; }
  void skip_space() {
    while (at_ < text_.size() && (here() == ' ' || here() == '\t' || here() == '\n' || here() == '\r')) ++at_;
  }
  bool take(std::string_view word) {
    if (text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }

  Json read_value(int depth) {
    if (depth >= deepest) refuse(fmt::format("the value is nested more than {} deep", deepest));
    switch (here()) {
      case '{':
        return read_object(depth);
      case '[':
        return read_list(depth);
      case '"':
        return read_text();
      default:
        break;
    }
    if (take("true")) return true;
    if (take("false")) return false;
    if (take("null")) return nullptr;
    for (const std::string_view word : {"NaN", "nan", "-NaN", "-nan", "Infinity", "-Infinity", "+Infinity", "inf", "-inf"}) {
      if (take(word)) return std::numeric_limits<double>::quiet_NaN();
    }
    return read_number();
  }

  Json read_object(int depth) {
    JsonObject members;
    ++at_;
    skip_space();
    if (take("}")) return members;
    while (true) {
      skip_space();
      if (here() != '"') refuse("a key in double quotes is expected");
      const std::size_t start = at_;
      std::string key = read_text();
      for (const JsonMember& other : members) {
        if (other.key == key) {
          at_ = start;
          refuse(fmt::format("the key \"{}\" stands here a second time; a key may stand once", key));
        }
      }
      skip_space();
      if (!take(":")) refuse(fmt::format("a colon is expected after the key \"{}\"", key));
      skip_space();
      members.push_back({std::move(key), read_value(depth + 1)});
      skip_space();
      if (take("}")) return members;
      if (!take(",")) refuse("a comma or the closing brace of the object is expected");
    }
  }

  Json read_list(int depth) {
    JsonList items;
    ++at_;
    skip_space();
    if (take("]")) return items;
    while (true) {
      skip_space();
      items.push_back(read_value(depth + 1));
      skip_space();
      if (take("]")) return items;
      if (!take(",")) refuse("a comma or the closing bracket of the list is expected");
    }
  }

  Json read_number() {
    const std::size_t start = at_;
    std::size_t end = at_;
    const auto digits = [&] {
      const std::size_t first = end;
      while (end < text_.size() && text_[end] >= '0' && text_[end] <= '9') ++end;
      return end - first;
    };
    if (here() == '-') ++end;
    const std::size_t whole_part = end;
    bool good = digits() > 0 && !(text_[whole_part] == '0' && end - whole_part > 1);
    if (good && end < text_.size() && text_[end] == '.') {
      ++end;
      good = digits() > 0;
    }
    if (good && end < text_.size() && (text_[end] == 'e' || text_[end] == 'E')) {
      ++end;
      if (end < text_.size() && (text_[end] == '+' || text_[end] == '-')) ++end;
      good = digits() > 0;
    }
    if (!good) refuse("a JSON value is expected: an object, a list, text in double quotes, a number, true, false or null");
    double value = 0;
    const auto [rest, problem] = std::from_chars(text_.data() + start, text_.data() + end, value);
    at_ = end;
    // A number that is too large for a double is not finite; one too small is 0 as near as a double can say.
    if (problem == std::errc::result_out_of_range) {
      const double size = std::strtod(std::string(text_.substr(start, end - start)).c_str(), nullptr);
      return size > 1 || size < -1 ? std::numeric_limits<double>::quiet_NaN() : size;
    }
    return value;
  }

  std::string read_text() {
    std::string out;
    ++at_;
    while (true) {
      if (at_ >= text_.size()) refuse("the text in double quotes has no end");
      const char c = here();
      if (c == '"') {
        ++at_;
        return out;
      }
      if (static_cast<unsigned char>(c) < 0x20) refuse("a control character stands inside text; it must be written as an escape");
      if (c == '\\') {
        read_escape(out);
        continue;
      }
      out += c;
      ++at_;
    }
  }

  void read_escape(std::string& out) {
    constexpr std::string_view letters = "\"\\/bfnrt", meant = "\"\\/\b\f\n\r\t";
    ++at_;
    if (const std::size_t which = letters.find(here()); which != std::string_view::npos && at_ < text_.size()) {
      out += meant[which];
      ++at_;
      return;
    }
    if (here() != 'u') refuse("this escape is unknown; JSON knows \\\" \\\\ \\/ \\b \\f \\n \\r \\t and \\u with four digits");
    ++at_;
    unsigned code = read_four();
    if (code >= 0xDC00 && code <= 0xDFFF) refuse("the second half of a surrogate pair stands without its first");
    if (code >= 0xD800 && code <= 0xDBFF) {
      if (!take("\\u")) refuse("the first half of a surrogate pair stands without its second");
      const unsigned low = read_four();
      if (low < 0xDC00 || low > 0xDFFF) refuse("the first half of a surrogate pair stands without its second");
      code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
    }
    append_utf8(out, code);
  }

  unsigned read_four() {
    const std::string_view digits = text_.substr(at_, 4);
    unsigned code = 0;
    const auto [end, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
    if (digits.size() != 4 || problem != std::errc() || end != digits.data() + 4 || digits[0] == '-') {
      refuse("four hexadecimal digits are expected after \\u");
    }
    at_ += 4;
    return code;
  }

  std::string_view name_;
  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

Json read_json(std::string_view name, std::string_view text) {
  return Reader(name, text).whole();
}

}  // namespace heatwork::desk
