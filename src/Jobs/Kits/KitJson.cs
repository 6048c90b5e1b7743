using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.Kits;

/// <summary>Writes a kit, or one thing of it, as JSON; docs/kit.md#the-json-form says what is where.</summary>
public static class KitJson
{
    /// <summary>What 'format' says.</summary>
    public const string Format = "athwart-kit";

    /// <summary>What 'version' says.</summary>
    public const int Version = 1;

    /// <summary>A whole kit, indented, as <c>kit export</c> writes it.</summary>
    public static string Write(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return Text(indented: true, json =>
        {
            json.WriteStartObject();
            json.WriteString("format", Format);
            json.WriteNumber("version", Version);
            WriteThings(json, kit);
            json.WriteEndObject();
        });
    }

    /// <summary>The members 'microphones', 'recorders' and 'protections' of an object that is open.</summary>
    internal static void WriteThings(Utf8JsonWriter json, Kit kit)
    {
        Array(json, "microphones", kit.Microphones, Write);
        Array(json, "recorders", kit.Recorders, Write);
        Array(json, "protections", kit.Protections, Write);
    }

    internal static string Text(bool indented, Action<Utf8JsonWriter> write)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, new() { Indented = indented, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            write(json);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    internal static void Write(Utf8JsonWriter json, Microphone microphone)
    {
        json.WriteStartObject();
        json.WriteString("name", microphone.Name);
        Array(json, "settings", microphone.Settings, static (json, setting) =>
        {
            json.WriteStartObject();
            Fields(json, setting, KitFields.Setting);
            json.WriteEndObject();
        });
        Fields(json, microphone, KitFields.Microphone);
        json.WriteEndObject();
    }

    internal static void Write(Utf8JsonWriter json, Recorder recorder) => Write(json, recorder.Name, recorder, KitFields.Recorder);

    internal static void Write(Utf8JsonWriter json, WindProtection protection) => Write(json, protection.Name, protection, KitFields.Protection);

    internal static void Array<T>(Utf8JsonWriter json, string name, IEnumerable<T> items, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
            write(json, item);
        json.WriteEndArray();
    }

    private static void Write<T>(Utf8JsonWriter json, string name, T item, IReadOnlyList<KitField<T>> fields)
    {
        json.WriteStartObject();
        json.WriteString("name", name);
        Fields(json, item, fields);
        json.WriteEndObject();
    }

    private static void Fields<T>(Utf8JsonWriter json, T item, IReadOnlyList<KitField<T>> fields)
    {
        foreach (var field in fields)
        {
            if (field.Member is null || field.Write(item) is not { } text)
                continue;
            json.WritePropertyName(field.Member);
            if (field.Type == KitFieldType.Number)
                json.WriteRawValue(text);
            else if (field.Type == KitFieldType.Flag)
                json.WriteBooleanValue(text.Equals(KitFields.Yes, StringComparison.Ordinal));
            else if (item is MicrophoneSetting { Pattern: TabulatedPattern table } && field.Type == KitFieldType.Pattern)
                Table(json, table);
            else
                json.WriteStringValue(text);
        }
    }

    private static void Table(Utf8JsonWriter json, TabulatedPattern table)
    {
        json.WriteStartObject();
        json.WriteBoolean("oppositeBehind", table.Behind == LobeBehind.Opposite);
        Array(json, "table", table.Points.GroupBy(p => p.Frequency), static (json, row) =>
        {
            json.WriteStartObject();
            json.WriteNumber("frequencyHertz", row.Key.Value);
            Array(json, "levels", row, static (json, point) =>
            {
                json.WriteStartObject();
                json.WriteNumber("degrees", point.Angle.Value);
                // JSON has no −∞: a null is silence.
                if (double.IsNegativeInfinity(point.Level.Value))
                    json.WriteNull("decibels");
                else
                    json.WriteNumber("decibels", point.Level.Value);
                if (point.Opposite)
                    json.WriteBoolean("opposite", true);
                json.WriteEndObject();
            });
            json.WriteEndObject();
        });
        json.WriteEndObject();
    }
}
