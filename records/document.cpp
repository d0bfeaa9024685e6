#include "records/document.h"

#include "records/hash.h"

namespace heatwork::records {

std::string document_hash(const Document& document) {
  return Hash().value(document.kind).value(document.id).value(document.version).value(document.body).value(document.typed).hex();
}

}  // namespace heatwork::records
