// Altered bytes at the reader of files: whatever they hold, the answer is a noun or one located mistake; a noun is written and read again
// as the same.
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>

#include "trade/mistake.h"
#include "trade/reader.h"
#include "trade/writer.h"

namespace {

using namespace heatwork::trade;

template <class T>
void write_and_read(const std::shared_ptr<const Source>& source) {
  const std::string written = write_noun(read_noun<T>(source));
  if (write_noun(read_noun<T>(source_of("written.toml", written))) != written) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const auto source = source_of("altered.toml", std::string_view(reinterpret_cast<const char*>(bytes), size));
  Noun noun{};
  try {
    noun = read_any(source);
  } catch (const Mistake& mistake) {
    if (mistake.sentence().empty()) std::abort();
    return 0;
  }
  with_type_of(noun, [&]<class T>(std::type_identity<T>) {
    write_and_read<T>(source);
  });  // a mistake in what we wrote ourselves is a bug: it ends the fuzzer
  return 0;
}
