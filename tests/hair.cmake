hw_test(hair
  SOURCES unit/hair_ladder_test.cpp reference/hair_ladder_test.cpp property/hair_ladder_test.cpp
          unit/hair_words_test.cpp reference/hair_words_test.cpp property/hair_words_test.cpp
          unit/hair_head_test.cpp reference/hair_head_test.cpp property/hair_head_test.cpp
  LINK hw_hair fmt::fmt)
hw_test(hair_tress
  SOURCES unit/hair_tress_test.cpp reference/hair_tress_test.cpp
  LINK hw_hair fmt::fmt)
