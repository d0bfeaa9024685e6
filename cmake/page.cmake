# The page travels inside the binary: every file of page/dist is laid into read-only memory, as it is and packed by gzip, with a table of
# offsets that server/page_files.cpp reads. Where page/dist does not stand the table is empty, and the server says how to build the page.
file(GLOB_RECURSE page_files RELATIVE "${CMAKE_SOURCE_DIR}/page/dist" CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/page/dist/*")
list(SORT page_files COMPARE STRING)
list(LENGTH page_files page_count)
find_program(HEATWORK_GZIP gzip REQUIRED)

set(page_table "")
set(page_bytes "")
set(page_needs "")
set(number 0)
foreach(path IN LISTS page_files)
  if(path MATCHES "[^A-Za-z0-9_./-]")
    message(FATAL_ERROR "page/dist/${path}: a file of the page is named with letters, digits, hyphens, dots and underscores only.")
  endif()
  set(packed "${CMAKE_BINARY_DIR}/page/${number}.gz")
  add_custom_command(OUTPUT "${packed}" DEPENDS "${CMAKE_SOURCE_DIR}/page/dist/${path}" VERBATIM
    COMMAND sh -c "exec '${HEATWORK_GZIP}' -9 -n -c '${CMAKE_SOURCE_DIR}/page/dist/${path}' > '${packed}'")
  string(APPEND page_bytes ".Lname${number}: .ascii \"${path}\"\n.Lname_end${number}:\n")
  string(APPEND page_bytes ".Lplain${number}: .incbin \"${CMAKE_SOURCE_DIR}/page/dist/${path}\"\n.Lplain_end${number}:\n")
  string(APPEND page_bytes ".Lpacked${number}: .incbin \"${packed}\"\n.Lpacked_end${number}:\n")
  foreach(part name plain packed)
    string(APPEND page_table "  .quad .L${part}${number} - heatwork_page, .L${part}_end${number} - .L${part}${number}\n")
  endforeach()
  list(APPEND page_needs "${CMAKE_SOURCE_DIR}/page/dist/${path}" "${packed}")
  math(EXPR number "${number} + 1")
endforeach()
file(MAKE_DIRECTORY "${CMAKE_BINARY_DIR}/page")

set(page_source "${CMAKE_BINARY_DIR}/page.S")
file(CONFIGURE OUTPUT "${page_source}" @ONLY CONTENT [[
# Made by cmake/page.cmake: first the number of files, then a row a file (offset and length of its path, its bytes, its packed bytes).
  .section .rodata
  .balign 8
  .globl heatwork_page
heatwork_page:
  .quad @page_count@
@page_table@
@page_bytes@
  .section .note.GNU-stack,"",%progbits
]])
add_library(heatwork_page OBJECT "${page_source}")
set_source_files_properties("${page_source}" PROPERTIES OBJECT_DEPENDS "${page_needs}")
target_sources(heatwork_server PRIVATE $<TARGET_OBJECTS:heatwork_page>)
