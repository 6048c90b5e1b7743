using System.Globalization;
using System.Text.Json;
using Athwart.Microphones.Equipment;
using Athwart.Microphones.Patterns;

namespace Athwart.Jobs.Kits;

/// <summary>Reads the JSON of a kit; every fault of the file in one go.</summary>
internal sealed class JsonKitReader(string file, KitReading reading)
{
    private static readonly string[] RootMembers = ["format", "version", "microphones", "recorders", "protections"];

    /// <summary>A whole kit.</summary>
    public static void Read(string file, string text, KitReading reading) => Guarded(file, text, reading, (reader, root) => reader.Root(root));

    /// <summary>One thing, as the library keeps it; <paramref name="read"/> says of which kind.</summary>
    public static void ReadOne(string file, string text, KitReading reading, Action<JsonKitReader, JsonElement> read) => Guarded(file, text, reading, read);

    public void Microphone(JsonElement element, string path)
    {
        var item = Things(element, path, new Microphone { Name = Name(element, path), Settings = [] }, KitFields.Microphone, "settings");
        var settings = new List<MicrophoneSetting>();
        if (element.ValueKind == JsonValueKind.Object && element.TryGetProperty("settings", out var list))
            Each(list, path + ".settings", (s, p) => settings.Add(Setting(s, p)));
        reading.Microphones.Add(new(item with { Settings = settings }, (setting, figure) => setting is { } s
            ? Place(string.Create(CultureInfo.InvariantCulture, $"{path}.settings[{s}].{Member(KitFields.Setting, figure)}"))
            : Place($"{path}.{Member(KitFields.Microphone, figure)}")));
    }

    public void Recorder(JsonElement element, string path) => reading.Recorders.Add(new(
        Things(element, path, new Recorder { Name = Name(element, path) }, KitFields.Recorder),
        (_, figure) => Place($"{path}.{Member(KitFields.Recorder, figure)}")));

    public void Protection(JsonElement element, string path) => reading.Protections.Add(new(
        Things(element, path, new WindProtection { Name = Name(element, path) }, KitFields.Protection),
        (_, figure) => Place($"{path}.{Member(KitFields.Protection, figure)}")));

    private static void Guarded(string file, string text, KitReading reading, Action<JsonKitReader, JsonElement> read)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            read(new(file, reading), document.RootElement);
        }
        catch (JsonException error)
        {
            reading.Fault(
                new(file, Path: string.Create(CultureInfo.InvariantCulture, $"line {error.LineNumber + 1}, byte {error.BytePositionInLine + 1}")),
                "",
                "This is no JSON: " + error.Message.Split(" LineNumber:", 2)[0],
                "Mend it there, or export the kit anew.");
        }
    }

    private void Root(JsonElement root)
    {
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("format", out var format) || !IsText(format, KitJson.Format))
        {
            Fault("", "", $"This is no kit: the first member must be \"format\": \"{KitJson.Format}\".", "See docs/kit.md for the form, or 'athwart kit export' for a pattern.");
            return;
        }

        if (!root.TryGetProperty("version", out var version) || version.ValueKind != JsonValueKind.Number || !version.TryGetInt32(out var number) || number != KitJson.Version)
        {
            Fault("version", "", $"This program reads version {KitJson.Version} of the form.", "Export the kit with the program of the same version, or bring this one up to date.");
            return;
        }

        Members(root, "", "", RootMembers);
        Each(root, "microphones", Microphone);
        Each(root, "recorders", Recorder);
        Each(root, "protections", Protection);

        void Each(JsonElement from, string member, Action<JsonElement, string> read)
        {
            if (from.TryGetProperty(member, out var list))
                this.Each(list, member, read);
        }
    }

    private void Each(JsonElement list, string path, Action<JsonElement, string> read)
    {
        if (list.ValueKind != JsonValueKind.Array)
        {
            Fault(path, "", "This must be a list.", "Write it in square brackets.");
            return;
        }

        var index = 0;
        foreach (var element in list.EnumerateArray())
        {
            var place = string.Create(CultureInfo.InvariantCulture, $"{path}[{index++}]");
            if (element.ValueKind == JsonValueKind.Object)
                read(element, place);
            else
                Fault(place, "", "This must be an object.", "Write it in curly brackets.");
        }
    }

    private MicrophoneSetting Setting(JsonElement element, string path)
    {
        var setting = Things(element, path, new MicrophoneSetting { Pattern = FirstOrderPattern.Omni }, KitFields.Setting, named: false);
        if (element.ValueKind == JsonValueKind.Object && !element.TryGetProperty("pattern", out _))
            Fault(path + ".pattern", "", "The pattern is missing, and nothing is known of a microphone without it.", char.ToUpperInvariant(PatternNames.Remedy[0]) + PatternNames.Remedy[1..] + ".");
        return setting;
    }

    private T Things<T>(JsonElement element, string path, T item, IReadOnlyList<KitField<T>> fields, string? list = null, bool named = true)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            Fault(path, "", "This must be an object.", "Write it in curly brackets.");
            return item;
        }

        var name = named ? Name(element, null) : "";
        Members(element, path, name, [.. fields.Select(f => f.Member).OfType<string>(), .. named ? (string[])["name"] : [], .. list is null ? (string[])[] : [list]]);
        foreach (var field in fields)
        {
            if (field.Member is null || !element.TryGetProperty(field.Member, out var value) || value.ValueKind == JsonValueKind.Null)
                continue;
            var outcome = Value(value, field.Type, item, field);
            if (outcome.IsFault)
                Fault($"{path}.{field.Member}", name, outcome.Message, outcome.Remedy);
            item = outcome.Value;
        }

        return item;
    }

    private static Outcome<T> Value<T>(JsonElement value, KitFieldType type, T item, KitField<T> field)
    {
        if (type == KitFieldType.Pattern && value.ValueKind == JsonValueKind.Object)
            return JsonTable.TryRead(value, out var pattern, out var rule) && item is MicrophoneSetting setting ? new((T)(object)(setting with { Pattern = pattern })) : new(item, "The measured table is refused: " + rule + ".", "See docs/kit.md for its form.");
        var text = (type, value.ValueKind) switch
        {
            (KitFieldType.Number, JsonValueKind.Number) when double.IsFinite(value.GetDouble()) => value.GetRawText(),
            (KitFieldType.Pattern, JsonValueKind.Number) => value.GetRawText(),
            (KitFieldType.Flag, JsonValueKind.True) => KitFields.Yes,
            (KitFieldType.Flag, JsonValueKind.False) => KitFields.No,
            (KitFieldType.Text or KitFieldType.Pattern, JsonValueKind.String) => Text(value),
            _ => null,
        };
        return text is null ? new(item, $"This must be {Wanted(type)}.", "Mend it, or leave the member out when it is not known.") : field.Read(item, text);
    }

    private static string Wanted(KitFieldType type) => type switch
    {
        KitFieldType.Number => "a number of ordinary size, without quotation marks",
        KitFieldType.Flag => "true or false",
        KitFieldType.Pattern => "a pattern: a name, an omni share or a measured table",
        _ => "a text",
    };

    private void Members(JsonElement element, string path, string item, string[] known)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var member in element.EnumerateObject())
        {
            // A name with half of a surrogate pair cannot be read at all.
            var name = MemberName(member) ?? "\uFFFD";
            var place = path.Length == 0 ? HeaderText.Short(name) : $"{path}.{HeaderText.Short(name)}";
            if (Array.IndexOf(known, name) < 0)
                Fault(place, item, $"There is no such member; the nearest is '{HeaderText.Nearest(name, known)}'.", "Rename it or take it out.");
            else if (!seen.Add(name))
                Fault(place, item, "The member comes twice.", "Keep one.");
        }
    }

    private string Name(JsonElement element, string? path)
    {
        var name = element.ValueKind == JsonValueKind.Object && element.TryGetProperty("name", out var value) && value.ValueKind == JsonValueKind.String ? Text(value) : null;
        if (name is null && path is not null && element.ValueKind == JsonValueKind.Object && element.TryGetProperty("name", out _))
            Fault(path + ".name", "", "This must be a text.", "Write the name in quotation marks.");
        return name ?? "";
    }

    private static string? MemberName(JsonProperty member)
    {
        try
        {
            return member.Name;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    // Null for half of a surrogate pair, which JSON can escape but no text can hold.
    private static string? Text(JsonElement value)
    {
        try
        {
            return value.GetString();
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }

    private static bool IsText(JsonElement element, string text) => element.ValueKind == JsonValueKind.String && string.Equals(Text(element), text, StringComparison.Ordinal);

    private static string Member<T>(IReadOnlyList<KitField<T>> fields, string figure) =>
        fields.FirstOrDefault(f => f.Member is not null && f.Figure.Equals(figure, StringComparison.Ordinal))?.Member ?? figure;

    private KitPlace Place(string path) => new(file, Path: path);

    private void Fault(string path, string item, string message, string remedy) => reading.Fault(Place(path), HeaderText.Short(item), message, remedy);
}
