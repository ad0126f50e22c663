package org.mixaccord.api.v1.json;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonStreamContext;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializerProvider;
import com.fasterxml.jackson.databind.module.SimpleModule;
import com.fasterxml.jackson.databind.ser.std.StdSerializer;
import jakarta.inject.Singleton;
import jakarta.ws.rs.ext.ContextResolver;
import jakarta.ws.rs.ext.Provider;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.regex.Pattern;

/**
 * Numbers as answers carry them: figures with four decimals, times, speeds and everything else with
 * ten. Only here, where they leave; what is stored keeps all its digits.
 */
@Provider
@Singleton
public class RoundedFigures implements ContextResolver<ObjectMapper> {
  private static final int FIGURE = 4;

  /** Less than a nanosecond: a place keeps its sample at any rate. */
  private static final int PLACE = 10;

  private static final Pattern FIGURES =
      Pattern.compile("(.*(Db|Lufs|Lu|Dbtp|Dbfs))|db|sure|progress|probability");

  private final ObjectMapper mapper;

  RoundedFigures(ObjectMapper plain) {
    mapper =
        plain
            .copy()
            .registerModule(
                new SimpleModule("rounded-figures")
                    .addSerializer(Double.class, new Rounded())
                    .addSerializer(double.class, new Rounded()));
  }

  @Override
  public ObjectMapper getContext(Class<?> type) {
    return mapper;
  }

  private static final class Rounded extends StdSerializer<Double> {
    private static final long serialVersionUID = 1L;

    Rounded() {
      super(Double.class);
    }

    @Override
    public void serialize(Double value, JsonGenerator json, SerializerProvider provider)
        throws IOException {
      if (!Double.isFinite(value)) {
        json.writeNumber(value);
        return;
      }
      JsonStreamContext at = json.getOutputContext();
      String name = at.inArray() ? at.getParent().getCurrentName() : at.getCurrentName();
      json.writeNumber(
          BigDecimal.valueOf(value).setScale(decimals(name), RoundingMode.HALF_UP).doubleValue());
    }

    private static int decimals(String name) {
      return name != null && FIGURES.matcher(name).matches() ? FIGURE : PLACE;
    }
  }
}
