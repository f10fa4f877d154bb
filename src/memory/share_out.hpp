#pragma once

#include <cstddef>
#include <functional>

namespace memory {

/// Runs work(0) .. work(count - 1), each once, on that many threads; which thread gets which is left to chance, so work
/// must not depend on it. An exception from work ends the program.
void share_out(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work);

}  // namespace memory
