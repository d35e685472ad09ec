// What the system library for WebAssembly lacks: it cannot throw. A test that comes here has failed.
#include <cstdlib>

extern "C" {
void* __cxa_allocate_exception(std::size_t) { std::abort(); }
void __cxa_throw(void*, void*, void (*)(void*)) { std::abort(); }
}
