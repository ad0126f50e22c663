package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.lang.reflect.RecordComponent;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;

/** How figures are to change; whatever is not named has to stay. */
final class Moves {
  private static final double TINY = 1e-6; // bands are kept as floats

  private final Map<String, DoubleUnaryOperator> moves = new HashMap<>();

  /** Figures, or {@code bands.} and the name of a band's, that become what is said of them. */
  Moves move(DoubleUnaryOperator move, String... figures) {
    for (String figure : figures) {
      moves.put(figure, move);
    }
    return this;
  }

  void check(Measurements before, Measurements after) {
    check("", before, after);
  }

  private void check(String in, Record before, Record after) {
    for (RecordComponent part : before.getClass().getRecordComponents()) {
      String name = in + part.getName();
      Object a = value(part, before);
      Object b = value(part, after);
      if (a instanceof OptionalDouble x && b instanceof OptionalDouble y) {
        assertEquals(x.isPresent(), y.isPresent(), name);
        if (x.isPresent()) {
          double wanted =
              moves
                  .getOrDefault(name, DoubleUnaryOperator.identity())
                  .applyAsDouble(x.getAsDouble());
          assertEquals(wanted, y.getAsDouble(), TINY * Math.max(1, Math.abs(wanted)), name);
        }
      } else if (a instanceof List<?> x && b instanceof List<?> y) {
        assertEquals(x.size(), y.size(), name);
        for (int i = 0; i < x.size(); i++) {
          check(name + ".", (Record) x.get(i), (Record) y.get(i));
        }
      } else {
        assertEquals(a, b, name);
      }
    }
  }

  private static Object value(RecordComponent part, Record of) {
    try {
      return part.getAccessor().invoke(of);
    } catch (ReflectiveOperationException e) {
      throw new AssertionError(e);
    }
  }
}
