#include "memory/share_out.hpp"

#include <atomic>
#include <thread>
#include <vector>

namespace memory {

void share_out(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    const auto run = [&]() noexcept {
        for (std::size_t n = next++; n < count; n = next++) work(n);
    };
    std::vector<std::jthread> others;
    for (unsigned n = 1; n < threads; ++n) others.emplace_back(run);
    run();
}

}  // namespace memory
