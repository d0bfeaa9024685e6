# The description of the interface travels inside the binary: every server/description/*.json is laid byte for byte into read-only memory,
# in order of name, with a table of offsets that server/description.cpp reads.
file(GLOB description_files RELATIVE "${CMAKE_SOURCE_DIR}/server/description" CONFIGURE_DEPENDS "${CMAKE_SOURCE_DIR}/server/description/*.json")
list(SORT description_files COMPARE STRING)
list(LENGTH description_files description_count)

set(description_table "")
set(description_bytes "")
set(description_needs "")
set(number 0)
foreach(name IN LISTS description_files)
  string(APPEND description_bytes ".Lname${number}: .ascii \"${name}\"\n.Lname_end${number}:\n")
  string(APPEND description_bytes ".Ltext${number}: .incbin \"${CMAKE_SOURCE_DIR}/server/description/${name}\"\n.Ltext_end${number}:\n")
  foreach(part name text)
    string(APPEND description_table "  .quad .L${part}${number} - heatwork_description, .L${part}_end${number} - .L${part}${number}\n")
  endforeach()
  list(APPEND description_needs "${CMAKE_SOURCE_DIR}/server/description/${name}")
  math(EXPR number "${number} + 1")
endforeach()

set(description_source "${CMAKE_BINARY_DIR}/description.S")
file(CONFIGURE OUTPUT "${description_source}" @ONLY CONTENT [[
# Made by cmake/description.cmake: first the number of fragments, then a row each (offset and length of its name, and of its text).
  .section .rodata
  .balign 8
  .globl heatwork_description
heatwork_description:
  .quad @description_count@
@description_table@
@description_bytes@
  .section .note.GNU-stack,"",%progbits
]])
add_library(heatwork_description OBJECT "${description_source}")
set_source_files_properties("${description_source}" PROPERTIES OBJECT_DEPENDS "${description_needs}")
target_sources(heatwork_server PRIVATE $<TARGET_OBJECTS:heatwork_description>)
