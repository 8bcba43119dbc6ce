# outbye_folder(NAME PATH [PURE] [USES lib...]) makes one library of every .cpp in the current folder (tests apart), with
# its headers checked to compile alone, and one test program of every *_test.cpp, registered with CTest test by test.
# PURE: no exceptions (core and engine). Warnings are errors everywhere.
#
# With OUTBYE_TOGETHER the .cpp of test programs, and of libraries outside core and engine, are compiled some at a time as
# one: most of their time goes into the same headers. APART: not in this folder, whose files have names that would clash.
# The release build takes every file by itself, so a header that a file forgot does not stay hidden.

find_package(GTest REQUIRED)
find_package(Threads REQUIRED)
include(GoogleTest)

add_library(outbye_flags INTERFACE)
target_compile_options(outbye_flags INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion
                                              -Wnon-virtual-dtor -Wold-style-cast -Werror -ffp-contract=off)
target_include_directories(outbye_flags INTERFACE ${PROJECT_SOURCE_DIR})
target_compile_definitions(outbye_flags INTERFACE OUTBYE_VERSION="${PROJECT_VERSION}")
# g++ 12 sees overlapping copies where two strings are joined at -O3 (GCC bug 105651, a false alarm).
if(CMAKE_CXX_COMPILER_ID STREQUAL GNU AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
  target_compile_options(outbye_flags INTERFACE -Wno-restrict)
endif()
if(OUTBYE_SANITIZE)
  target_compile_options(outbye_flags INTERFACE -fsanitize=address,undefined -fno-sanitize-recover=all
                                                -fno-omit-frame-pointer)
  target_link_options(outbye_flags INTERFACE -fsanitize=address,undefined)
endif()

# The folder that holds the reference data beside the repository, if there; tests skip with a printed reason if not.
set(OUTBYE_SHARED ${PROJECT_SOURCE_DIR}/../shared CACHE PATH "reference data, not part of the repository")

# GoogleTest's headers are most of what a test program compiles: one precompiled header for all of them.
if(OUTBYE_TESTS)
  file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/test_headers.cpp CONTENT "")
  add_library(outbye_test_headers OBJECT ${CMAKE_BINARY_DIR}/test_headers.cpp)
  target_link_libraries(outbye_test_headers PRIVATE outbye_flags GTest::gtest GTest::gmock Threads::Threads)
  target_precompile_headers(outbye_test_headers PRIVATE <gmock/gmock.h> <gtest/gtest.h>)
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    target_compile_options(outbye_test_headers PRIVATE -fpch-preprocess)
  endif()
endif()

function(outbye_together NAME)
  if(OUTBYE_TOGETHER)
    set_target_properties(${NAME} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 8)
  endif()
endfunction()

function(outbye_tests NAME)
  cmake_parse_arguments(ARG "SLOW;APART" "" "SOURCES;USES" ${ARGN})
  if(NOT OUTBYE_TESTS)
    return()
  endif()
  add_executable(${NAME} ${ARG_SOURCES})
  if(NOT ARG_APART)
    outbye_together(${NAME})
  endif()
  target_link_libraries(${NAME} PRIVATE outbye_flags ${ARG_USES} GTest::gtest_main GTest::gmock Threads::Threads)
  target_precompile_headers(${NAME} REUSE_FROM outbye_test_headers)
  if(CMAKE_CXX_COMPILER_ID STREQUAL GNU)
    # Lets ccache see the precompiled header. Behind one, g++ 12 forgets that the standard library is not ours to warn
    # about, and raises the false alarms of GCC bug 105651 there.
    target_compile_options(${NAME} PRIVATE -fpch-preprocess -Wno-array-bounds -Wno-stringop-overflow
                                           -Wno-stringop-overread)
  endif()
  target_compile_definitions(
    ${NAME} PRIVATE OUTBYE_SHARED="${OUTBYE_SHARED}" OUTBYE_SOURCE="${PROJECT_SOURCE_DIR}"
                    OUTBYE_BUILD="${CMAKE_BINARY_DIR}")
  if(ARG_SLOW)
    # A slow program is one CTest entry (labelled slow): its tests share what they prepared.
    add_test(NAME ${NAME} COMMAND ${NAME})
    set_tests_properties(${NAME} PROPERTIES LABELS slow TIMEOUT 1200)
  else()
    gtest_discover_tests(${NAME} DISCOVERY_TIMEOUT 60 PROPERTIES TIMEOUT 300)
  endif()
endfunction()

function(outbye_folder NAME)
  cmake_parse_arguments(ARG "PURE;APART" "" "USES" ${ARGN})
  set(apart "")
  if(ARG_APART)
    set(apart APART)
  endif()
  file(GLOB sources CONFIGURE_DEPENDS *.cpp)
  file(GLOB headers CONFIGURE_DEPENDS *.h)
  set(tests ${sources})
  list(FILTER tests INCLUDE REGEX "_test\\.cpp$")
  list(FILTER sources EXCLUDE REGEX "_test\\.cpp$")
  if(sources)
    add_library(outbye_${NAME} STATIC ${sources})
    target_link_libraries(outbye_${NAME} PUBLIC ${ARG_USES} PRIVATE outbye_flags)
    target_include_directories(outbye_${NAME} PUBLIC ${PROJECT_SOURCE_DIR})
    # A header beside a .cpp of its name is included there first (clang-format sees to the order), so it is known to compile
    # alone; the others are compiled by themselves.
    set(alone ${headers})
    foreach(source ${sources})
      string(REGEX REPLACE "\\.cpp$" ".h" own ${source})
      list(REMOVE_ITEM alone ${own})
    endforeach()
    target_sources(
      outbye_${NAME}
      PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES ${headers}
             FILE_SET alone TYPE HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR} FILES ${alone})
    set_target_properties(outbye_${NAME} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON INTERFACE_HEADER_SETS_TO_VERIFY alone)
    if(ARG_PURE)
      target_compile_options(outbye_${NAME} PRIVATE -fno-exceptions)
    elseif(NOT ARG_APART)
      outbye_together(outbye_${NAME})
    endif()
    set(library outbye_${NAME})
  else()
    add_library(outbye_${NAME} INTERFACE)
    target_include_directories(outbye_${NAME} INTERFACE ${PROJECT_SOURCE_DIR})
    target_link_libraries(outbye_${NAME} INTERFACE ${ARG_USES})
  endif()
  set_property(GLOBAL APPEND PROPERTY OUTBYE_LIBRARIES outbye_${NAME})
  if(tests)
    outbye_tests(${NAME}_test ${apart} SOURCES ${tests} USES outbye_${NAME})
  endif()
endfunction()
