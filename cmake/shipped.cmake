# What ships travels inside the binary: every data/**/*.toml is laid byte for byte into read-only memory, in order of path, with a
# table of offsets that trade/shipped.cpp reads. No file is opened at run time, and a changed file is laid in again by the next build.
file(GLOB_RECURSE shipped_files RELATIVE "${CMAKE_SOURCE_DIR}/data" CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/data/*.toml")
list(SORT shipped_files COMPARE STRING)
list(LENGTH shipped_files shipped_count)

set(shipped_paths "")
set(shipped_texts "")
set(shipped_table "")
set(shipped_needs "")
set(number 0)
foreach(path IN LISTS shipped_files)
  if(path MATCHES "[^A-Za-z0-9_./-]")
    message(FATAL_ERROR "data/${path}: a file that ships is named with letters, digits, hyphens, dots and underscores only.")
  endif()
  string(APPEND shipped_paths ".Lpath${number}: .ascii \"${path}\"\n.Lpath_end${number}:\n")
  string(APPEND shipped_texts ".Ltext${number}: .incbin \"${path}\"\n.Ltext_end${number}:\n")
  string(APPEND shipped_table "  .quad .Lpath${number} - heatwork_shipped, .Lpath_end${number} - .Lpath${number}")
  string(APPEND shipped_table ", .Ltext${number} - heatwork_shipped, .Ltext_end${number} - .Ltext${number}\n")
  list(APPEND shipped_needs "${CMAKE_SOURCE_DIR}/data/${path}")
  math(EXPR number "${number} + 1")
endforeach()

set(shipped_source "${CMAKE_BINARY_DIR}/shipped.S")
file(CONFIGURE OUTPUT "${shipped_source}" @ONLY CONTENT [[
# Made by cmake/shipped.cmake: first the number of files, then a row a file (path offset, path length, text offset, text length).
  .section .rodata
  .balign 8
  .globl heatwork_shipped
heatwork_shipped:
  .quad @shipped_count@
@shipped_table@
@shipped_paths@
@shipped_texts@
  .section .note.GNU-stack,"",%progbits
]])

# An object of its own: the warnings of the rooms are for C++.
add_library(heatwork_shipped OBJECT "${shipped_source}")
set_source_files_properties("${shipped_source}" PROPERTIES OBJECT_DEPENDS "${shipped_needs}")
target_compile_options(heatwork_shipped PRIVATE "-Wa,-I,${CMAKE_SOURCE_DIR}/data")
target_sources(heatwork_trade PRIVATE $<TARGET_OBJECTS:heatwork_shipped>)
