// Proofs of what documents are found by, on a thread of their own: reading their texts costs as much as reading the store.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <mutex>
#include <thread>

#include "records/findings.h"
#include "records/index_proof.h"

namespace heatwork::records {

/// The reader of documents is called by this one thread alone, so it need not be fit for several.
class IndexProofs {
 public:
  explicit IndexProofs(const IndexOf& index_of);
  ~IndexProofs();
  IndexProofs(const IndexProofs&) = delete;
  IndexProofs& operator=(const IndexProofs&) = delete;

  /// Takes one over to be proven; waits where too much waits already.
  void add(Document newest, std::int64_t sequence, IndexRows rows);
  /// Waits for all, and adds what they found.
  void end(Findings& findings);

 private:
  struct Task {
    Document newest;
    std::int64_t sequence;
    IndexRows rows;
    std::size_t bytes;
  };
  void work();
  void stop(bool drop);

  const IndexOf& index_of_;
  Findings found_;  ///< of the thread, until it has ended
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<Task> waiting_;
  std::size_t bytes_ = 0;
  bool ending_ = false;
  std::thread thread_;
};

}  // namespace heatwork::records
