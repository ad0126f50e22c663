package org.mixaccord.api.v1.json;

import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.deser.std.NumberDeserializers.DoubleDeserializer;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.deser.std.StringDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import io.quarkus.jackson.ObjectMapperCustomizer;
import jakarta.inject.Singleton;
import java.io.IOException;
import java.util.List;
import org.mixaccord.accounts.Texts;

/**
 * Refuses text that cannot be stored or is none, numbers that are none, and gaps in lists, in
 * whatever JSON comes in.
 */
@Singleton
public class StorableJson implements ObjectMapperCustomizer {
  @Override
  public void customize(ObjectMapper mapper) {
    mapper.registerModule(
        new SimpleModule("storable-json")
            .addDeserializer(String.class, new Checked())
            .addDeserializer(Double.class, new Finite(Double.class, null))
            .addDeserializer(double.class, new Finite(double.class, 0.0)));
    mapper.configOverride(List.class).setSetterInfo(JsonSetter.Value.forContentNulls(Nulls.FAIL));
  }

  private static final class Checked extends StdScalarDeserializer<String> {
    private static final long serialVersionUID = 1L;

    Checked() {
      super(String.class);
    }

    @Override
    public String deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      if (parser.currentToken().isScalarValue() && !parser.hasToken(JsonToken.VALUE_STRING)) {
        return context.reportInputMismatch(this, "a number or a truth is no text");
      }
      String text = StringDeserializer.instance.deserialize(parser, context);
      if (text != null) {
        Texts.checkStorable(text);
      }
      return text;
    }
  }

  /** Too large for a double, or spelled as infinity: nothing that can be measured or drawn. */
  private static final class Finite extends StdScalarDeserializer<Double> {
    private static final long serialVersionUID = 1L;

    private final DoubleDeserializer plain;

    Finite(Class<Double> type, Double missing) {
      super(type);
      plain = new DoubleDeserializer(type, missing);
    }

    @Override
    public Double deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      Double value = plain.deserialize(parser, context);
      return value == null || Double.isFinite(value)
          ? value
          : (Double) context.handleWeirdNumberValue(Double.class, value, "not a finite number");
    }

    @Override
    public Double getNullValue(DeserializationContext context) throws JsonMappingException {
      return plain.getNullValue(context);
    }
  }
}
