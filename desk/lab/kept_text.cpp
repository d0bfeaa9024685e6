#include "desk/lab/kept_text.h"

#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
KeptText kept_text(const std::shared_ptr<const trade::Source>& source) {
  const auto heading = trade::heading_of(source);
  if (!heading) throw trade::Mistake({}, source->name + ": this holds no `format` and no noun of a lab");
  return trade::with_type_of(heading->noun, [&]<class T>(std::type_identity<T>) {
    const T read = read_kept<T>(source);
    return KeptText{heading->noun, read.name, read.label, read.note, trade::write_noun(read)};
  });
}

}  // namespace heatwork::desk
