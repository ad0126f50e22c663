package org.mixaccord.api.v1.json;

import com.fasterxml.jackson.annotation.JsonSetter;
import com.fasterxml.jackson.annotation.Nulls;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.deser.std.StringDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import io.quarkus.jackson.ObjectMapperCustomizer;
import jakarta.inject.Singleton;
import java.io.IOException;
import java.util.List;
import org.mixaccord.accounts.Texts;

/** Refuses text that cannot be stored, and gaps in lists, in whatever JSON comes in. */
@Singleton
public class StorableText implements ObjectMapperCustomizer {
  @Override
  public void customize(ObjectMapper mapper) {
    mapper.registerModule(
        new SimpleModule("storable-text").addDeserializer(String.class, new Checked()));
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
      String text = StringDeserializer.instance.deserialize(parser, context);
      if (text != null) {
        Texts.checkStorable(text);
      }
      return text;
    }
  }
}
