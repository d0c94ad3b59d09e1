#include "dxf-pairs.h"
#include "number.h"

#include <math.h>
#include <string.h>

static const char *
skip_blanks (const char *p)
{
  while (*p == ' ' || *p == '\t')
    p++;
  return p;
}

gboolean
trn_dxf_next (TrnDxfPairs *pairs)
{
  pairs->code = -1;
  const char *line = trn_lines_next (&pairs->lines);
  if (line == NULL)
    return FALSE;
  /* The next line may move the buffer: the code is read first. */
  const char *p = skip_blanks (line), *end;
  gboolean negative = *p == '-';
  gint64 code = trn_whole_parse (p + negative, &end);
  pairs->value = trn_lines_next (&pairs->lines);
  if (pairs->value == NULL || code < 0 || code > 10000)
    return FALSE;
  pairs->value = (char *)skip_blanks (pairs->value);
  /* The codes below 0 are none of a file. */
  pairs->code = negative ? 9999 : (int)code;
  return TRUE;
}

gboolean
trn_dxf_is (const TrnDxfPairs *pairs, int code, const char *value)
{
  if (pairs->code != code)
    return FALSE;
  gsize length = strlen (value);
  return strncmp (pairs->value, value, length) == 0 && *skip_blanks (pairs->value + length) == '\0';
}

/* A number with something behind it, such as a comma for a point, is none. */
static double
value_number (const TrnDxfPairs *pairs, TrnDxfEntity *entity)
{
  const char *end;
  double number = trn_number_parse (pairs->value, &end);
  if (!isfinite (number) || *skip_blanks (end) != '\0')
    entity->unreadable = TRUE;
  return number;
}

static gint64
value_whole (const TrnDxfPairs *pairs, TrnDxfEntity *entity)
{
  double number = value_number (pairs, entity);
  return number >= -1e9 && number <= 1e9 ? (gint64)number : 0;
}

/* What is no coordinate. */
static void
take_value (const TrnDxfPairs *pairs, TrnDxfEntity *entity)
{
  switch (pairs->code)
    {
    case 2:
      g_strlcpy (entity->name, pairs->value, sizeof entity->name);
      break;
    case 8:
      g_strlcpy (entity->layer, pairs->value, sizeof entity->layer);
      break;
    case 38:
      entity->elevation = value_number (pairs, entity);
      break;
    case 39:
      entity->thickness = value_number (pairs, entity);
      break;
    case 41:
    case 42:
    case 43:
      entity->scale[pairs->code - 41] = value_number (pairs, entity);
      break;
    case 44:
    case 45:
      entity->spacing[pairs->code - 44] = value_number (pairs, entity);
      break;
    case 50:
      entity->rotation_deg = value_number (pairs, entity);
      break;
    case 67:
      entity->on_paper = value_whole (pairs, entity) == 1;
      break;
    case 70:
      entity->flags = value_whole (pairs, entity);
      break;
    case 71:
    case 72:
    case 73:
    case 74:
      entity->numbers[pairs->code - 71] = value_whole (pairs, entity);
      break;
    case 210:
    case 220:
    case 230:
      entity->extrusion[(pairs->code - 210) / 10] = value_number (pairs, entity);
      break;
    default:
      break;
    }
}

void
trn_dxf_entity_read (TrnDxfPairs *pairs, TrnDxfEntity *entity)
{
  memset (entity, 0, offsetof (TrnDxfEntity, layer));
  entity->layer[0] = entity->name[0] = '\0';
  for (int k = 0; k < 3; k++)
    entity->scale[k] = 1;
  entity->extrusion[2] = 1;
  while (trn_dxf_next (pairs) && pairs->code != 0)
    {
      int tens = pairs->code / 10, ones = pairs->code % 10;
      if (tens >= 1 && tens <= 3 && ones <= 3)
        {
          entity->corners[ones][tens - 1] = value_number (pairs, entity);
          entity->given[tens - 1] |= 1u << ones;
        }
      else
        take_value (pairs, entity);
    }
}
