// The JPEG decoder and the inflater of stb_image, as a private copy in a namespace of ours: no symbol of it is
// external, and a user's own stb, of any version, may come before or after ours in the same file or in another.
// Included by the readers of picture formats only.
#pragma once

// Everything that stb_image includes comes first, outside of the namespace.
#include <limits.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#if defined(__SSE2__) || defined(_M_X64)
#include <emmintrin.h>
#endif

#include "handlaid/core/error.hpp"

namespace handlaid::detail {

/// In place of assert(): a damaged picture must not end the program.
inline void decoder_holds(bool condition) {
  if (!condition) throw Error::bad_input("picture", "it is damaged", "save or copy it again");
}

}  // namespace handlaid::detail

// Macros know no namespace. Ours must not be seen after this header, nor a user's in it: each is put aside and brought
// back at the end.
#pragma push_macro("STB_IMAGE_STATIC")
#pragma push_macro("STB_IMAGE_IMPLEMENTATION")
#pragma push_macro("STBIDEF")
#pragma push_macro("STBI_ASSERT")
#pragma push_macro("STBI_EXTERN")
#pragma push_macro("STBI_FREE")
#pragma push_macro("STBI_INCLUDE_STB_IMAGE_H")
#pragma push_macro("STBI_MALLOC")
#pragma push_macro("STBI_MAX_DIMENSIONS")
#pragma push_macro("STBI_NEON")
#pragma push_macro("STBI_NOTUSED")
#pragma push_macro("STBI_NO_BMP")
#pragma push_macro("STBI_NO_FAILURE_STRINGS")
#pragma push_macro("STBI_NO_GIF")
#pragma push_macro("STBI_NO_HDR")
#pragma push_macro("STBI_NO_JPEG")
#pragma push_macro("STBI_NO_LINEAR")
#pragma push_macro("STBI_NO_PIC")
#pragma push_macro("STBI_NO_PNG")
#pragma push_macro("STBI_NO_PNM")
#pragma push_macro("STBI_NO_PSD")
#pragma push_macro("STBI_NO_SIMD")
#pragma push_macro("STBI_NO_STDIO")
#pragma push_macro("STBI_NO_TGA")
#pragma push_macro("STBI_NO_THREAD_LOCALS")
#pragma push_macro("STBI_NO_ZLIB")
#pragma push_macro("STBI_ONLY_JPEG")
#pragma push_macro("STBI_REALLOC")
#pragma push_macro("STBI_REALLOC_SIZED")
#pragma push_macro("STBI_SIMD_ALIGN")
#pragma push_macro("STBI_SSE2")
#pragma push_macro("STBI_SUPPORT_ZLIB")
#pragma push_macro("STBI_THREAD_LOCAL")
#pragma push_macro("STBI_WINDOWS_UTF8")
#pragma push_macro("STBI__BYTECAST")
#pragma push_macro("STBI__COMBO")
#pragma push_macro("STBI__IDCT_1D")
#pragma push_macro("STBI__MARKER_none")
#pragma push_macro("STBI__RESTART")
#pragma push_macro("STBI__X64_TARGET")
#pragma push_macro("STBI__X86_TARGET")
#pragma push_macro("STBI__ZFAST_BITS")
#pragma push_macro("STBI__ZFAST_MASK")
#pragma push_macro("STBI__ZNSYMS")
#pragma push_macro("FAST_BITS")
#pragma push_macro("stbi__DNL")
#pragma push_macro("stbi__EOI")
#pragma push_macro("stbi__SOF")
#pragma push_macro("stbi__SOF_progressive")
#pragma push_macro("stbi__SOI")
#pragma push_macro("stbi__SOS")
#pragma push_macro("stbi__div16")
#pragma push_macro("stbi__div4")
#pragma push_macro("stbi__err")
#pragma push_macro("stbi__errpf")
#pragma push_macro("stbi__errpuc")
#pragma push_macro("stbi__f2f")
#pragma push_macro("stbi__float2fixed")
#pragma push_macro("stbi__fsh")
#pragma push_macro("stbi__vertically_flip_on_load")
#pragma push_macro("stbi_inline")
#pragma push_macro("stbi_lrot")

#undef STB_IMAGE_STATIC
#undef STB_IMAGE_IMPLEMENTATION
#undef STBIDEF
#undef STBI_ASSERT
#undef STBI_EXTERN
#undef STBI_FREE
#undef STBI_INCLUDE_STB_IMAGE_H
#undef STBI_MALLOC
#undef STBI_MAX_DIMENSIONS
#undef STBI_NEON
#undef STBI_NOTUSED
#undef STBI_NO_BMP
#undef STBI_NO_FAILURE_STRINGS
#undef STBI_NO_GIF
#undef STBI_NO_HDR
#undef STBI_NO_JPEG
#undef STBI_NO_LINEAR
#undef STBI_NO_PIC
#undef STBI_NO_PNG
#undef STBI_NO_PNM
#undef STBI_NO_PSD
#undef STBI_NO_SIMD
#undef STBI_NO_STDIO
#undef STBI_NO_TGA
#undef STBI_NO_THREAD_LOCALS
#undef STBI_NO_ZLIB
#undef STBI_ONLY_JPEG
#undef STBI_REALLOC
#undef STBI_REALLOC_SIZED
#undef STBI_SIMD_ALIGN
#undef STBI_SSE2
#undef STBI_SUPPORT_ZLIB
#undef STBI_THREAD_LOCAL
#undef STBI_WINDOWS_UTF8
#undef STBI__BYTECAST
#undef STBI__COMBO
#undef STBI__IDCT_1D
#undef STBI__MARKER_none
#undef STBI__RESTART
#undef STBI__X64_TARGET
#undef STBI__X86_TARGET
#undef STBI__ZFAST_BITS
#undef STBI__ZFAST_MASK
#undef STBI__ZNSYMS
#undef FAST_BITS
#undef stbi__DNL
#undef stbi__EOI
#undef stbi__SOF
#undef stbi__SOF_progressive
#undef stbi__SOI
#undef stbi__SOS
#undef stbi__div16
#undef stbi__div4
#undef stbi__err
#undef stbi__errpf
#undef stbi__errpuc
#undef stbi__f2f
#undef stbi__float2fixed
#undef stbi__fsh
#undef stbi__vertically_flip_on_load
#undef stbi_inline
#undef stbi_lrot

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_JPEG
#define STBI_SUPPORT_ZLIB
#define STBI_NO_STDIO
#define STBI_NO_LINEAR
#define STBI_ASSERT(condition) ::handlaid::detail::decoder_holds(condition)
// Cleared memory, so that even a damaged picture that is let through gives the same pixels each time.
#define STBI_MALLOC(size) ::calloc(1, size)
#define STBI_REALLOC(memory, size) ::realloc(memory, size)
#define STBI_FREE(memory) ::free(memory)

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
// A namespace alone does not part functions with C linkage: they keep their plain names as symbols, and without
// optimisation ours would meet a user's in one file. So ours get names of their own.
#define stbi_failure_reason handlaid_stbi_failure_reason
#define stbi_hdr_to_ldr_gamma handlaid_stbi_hdr_to_ldr_gamma
#define stbi_hdr_to_ldr_scale handlaid_stbi_hdr_to_ldr_scale
#define stbi_image_free handlaid_stbi_image_free
#define stbi_info_from_callbacks handlaid_stbi_info_from_callbacks
#define stbi_info_from_memory handlaid_stbi_info_from_memory
#define stbi_is_16_bit_from_callbacks handlaid_stbi_is_16_bit_from_callbacks
#define stbi_is_16_bit_from_memory handlaid_stbi_is_16_bit_from_memory
#define stbi_is_hdr_from_callbacks handlaid_stbi_is_hdr_from_callbacks
#define stbi_is_hdr_from_memory handlaid_stbi_is_hdr_from_memory
#define stbi_load_16_from_callbacks handlaid_stbi_load_16_from_callbacks
#define stbi_load_16_from_memory handlaid_stbi_load_16_from_memory
#define stbi_load_from_callbacks handlaid_stbi_load_from_callbacks
#define stbi_load_from_memory handlaid_stbi_load_from_memory
#define stbi_set_flip_vertically_on_load handlaid_stbi_set_flip_vertically_on_load
#define stbi_set_flip_vertically_on_load_thread handlaid_stbi_set_flip_vertically_on_load_thread
#define stbi_zlib_decode_buffer handlaid_stbi_zlib_decode_buffer
#define stbi_zlib_decode_malloc handlaid_stbi_zlib_decode_malloc
#define stbi_zlib_decode_malloc_guesssize handlaid_stbi_zlib_decode_malloc_guesssize
#define stbi_zlib_decode_malloc_guesssize_headerflag handlaid_stbi_zlib_decode_malloc_guesssize_headerflag
#define stbi_zlib_decode_noheader_buffer handlaid_stbi_zlib_decode_noheader_buffer
#define stbi_zlib_decode_noheader_malloc handlaid_stbi_zlib_decode_noheader_malloc
namespace handlaid::detail::stb {
#include <stb_image.h>
}  // namespace handlaid::detail::stb
#undef stbi_failure_reason
#undef stbi_hdr_to_ldr_gamma
#undef stbi_hdr_to_ldr_scale
#undef stbi_image_free
#undef stbi_info_from_callbacks
#undef stbi_info_from_memory
#undef stbi_is_16_bit_from_callbacks
#undef stbi_is_16_bit_from_memory
#undef stbi_is_hdr_from_callbacks
#undef stbi_is_hdr_from_memory
#undef stbi_load_16_from_callbacks
#undef stbi_load_16_from_memory
#undef stbi_load_from_callbacks
#undef stbi_load_from_memory
#undef stbi_set_flip_vertically_on_load
#undef stbi_set_flip_vertically_on_load_thread
#undef stbi_zlib_decode_buffer
#undef stbi_zlib_decode_malloc
#undef stbi_zlib_decode_malloc_guesssize
#undef stbi_zlib_decode_malloc_guesssize_headerflag
#undef stbi_zlib_decode_noheader_buffer
#undef stbi_zlib_decode_noheader_malloc
#pragma GCC diagnostic pop

#pragma pop_macro("STB_IMAGE_STATIC")
#pragma pop_macro("STB_IMAGE_IMPLEMENTATION")
#pragma pop_macro("STBIDEF")
#pragma pop_macro("STBI_ASSERT")
#pragma pop_macro("STBI_EXTERN")
#pragma pop_macro("STBI_FREE")
#pragma pop_macro("STBI_INCLUDE_STB_IMAGE_H")
#pragma pop_macro("STBI_MALLOC")
#pragma pop_macro("STBI_MAX_DIMENSIONS")
#pragma pop_macro("STBI_NEON")
#pragma pop_macro("STBI_NOTUSED")
#pragma pop_macro("STBI_NO_BMP")
#pragma pop_macro("STBI_NO_FAILURE_STRINGS")
#pragma pop_macro("STBI_NO_GIF")
#pragma pop_macro("STBI_NO_HDR")
#pragma pop_macro("STBI_NO_JPEG")
#pragma pop_macro("STBI_NO_LINEAR")
#pragma pop_macro("STBI_NO_PIC")
#pragma pop_macro("STBI_NO_PNG")
#pragma pop_macro("STBI_NO_PNM")
#pragma pop_macro("STBI_NO_PSD")
#pragma pop_macro("STBI_NO_SIMD")
#pragma pop_macro("STBI_NO_STDIO")
#pragma pop_macro("STBI_NO_TGA")
#pragma pop_macro("STBI_NO_THREAD_LOCALS")
#pragma pop_macro("STBI_NO_ZLIB")
#pragma pop_macro("STBI_ONLY_JPEG")
#pragma pop_macro("STBI_REALLOC")
#pragma pop_macro("STBI_REALLOC_SIZED")
#pragma pop_macro("STBI_SIMD_ALIGN")
#pragma pop_macro("STBI_SSE2")
#pragma pop_macro("STBI_SUPPORT_ZLIB")
#pragma pop_macro("STBI_THREAD_LOCAL")
#pragma pop_macro("STBI_WINDOWS_UTF8")
#pragma pop_macro("STBI__BYTECAST")
#pragma pop_macro("STBI__COMBO")
#pragma pop_macro("STBI__IDCT_1D")
#pragma pop_macro("STBI__MARKER_none")
#pragma pop_macro("STBI__RESTART")
#pragma pop_macro("STBI__X64_TARGET")
#pragma pop_macro("STBI__X86_TARGET")
#pragma pop_macro("STBI__ZFAST_BITS")
#pragma pop_macro("STBI__ZFAST_MASK")
#pragma pop_macro("STBI__ZNSYMS")
#pragma pop_macro("FAST_BITS")
#pragma pop_macro("stbi__DNL")
#pragma pop_macro("stbi__EOI")
#pragma pop_macro("stbi__SOF")
#pragma pop_macro("stbi__SOF_progressive")
#pragma pop_macro("stbi__SOI")
#pragma pop_macro("stbi__SOS")
#pragma pop_macro("stbi__div16")
#pragma pop_macro("stbi__div4")
#pragma pop_macro("stbi__err")
#pragma pop_macro("stbi__errpf")
#pragma pop_macro("stbi__errpuc")
#pragma pop_macro("stbi__f2f")
#pragma pop_macro("stbi__float2fixed")
#pragma pop_macro("stbi__fsh")
#pragma pop_macro("stbi__vertically_flip_on_load")
#pragma pop_macro("stbi_inline")
#pragma pop_macro("stbi_lrot")
