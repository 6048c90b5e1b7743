using System.Text.Json;
using Athwart.Microphones.Equipment;

namespace Athwart.Jobs.Kits;

/// <summary>The reports of the kit as JSON for programs.</summary>
public static class KitReportJson
{
    /// <summary>The kit in the form of <see cref="KitJson"/>, then 'gaps', 'shortfalls', 'unusual', and the sums 'owned' and 'considered'.</summary>
    public static string Write(KitReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return KitJson.Text(indented: true, json =>
        {
            json.WriteStartObject();
            KitJson.WriteThings(json, report.Kit);
            KitJson.Array(json, "gaps", report.Gaps, static (json, gap) => Texts(json, ("item", gap.Item), ("label", gap.Label), ("figure", gap.Figure), ("consequence", gap.Consequence)));
            Strings(json, "shortfalls", report.Shortfalls);
            KitJson.Array(json, "unusual", report.Unusual, static (json, u) => Texts(json, ("item", u.Item), ("figure", u.Remark.Figure), ("message", u.Remark.Message), ("remedy", u.Remark.Remedy)));
            Prices(json, "owned", report.Owned);
            Prices(json, "considered", report.Considered);
            json.WriteEndObject();
        });
    }

    /// <summary>'done', the names 'added', 'replaced' and 'alreadyThere', 'faults' and 'unusual'.</summary>
    public static string Write(KitImportReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        return KitJson.Text(indented: true, json =>
        {
            json.WriteStartObject();
            json.WriteBoolean("done", report.Done);
            Strings(json, "added", report.Added);
            Strings(json, "replaced", report.Replaced);
            Strings(json, "alreadyThere", report.AlreadyThere);
            KitJson.Array(json, "faults", report.Faults, Fault);
            KitJson.Array(json, "unusual", report.Unusual, Fault);
            json.WriteEndObject();
        });
    }

    private static void Fault(Utf8JsonWriter json, KitFault fault)
    {
        json.WriteStartObject();
        json.WriteString("file", fault.Place.File);
        if (fault.Place.Row is { } row)
            json.WriteNumber("row", row);
        if (fault.Place.Column is { } column)
            json.WriteString("column", column);
        if (fault.Place.Path is { } path)
            json.WriteString("path", path);
        json.WriteString("item", fault.Item);
        json.WriteString("message", fault.Message);
        json.WriteString("remedy", fault.Remedy);
        json.WriteEndObject();
    }

    private static void Prices(Utf8JsonWriter json, string name, IReadOnlyList<Price> prices) => KitJson.Array(json, name, prices, static (json, price) =>
    {
        json.WriteStartObject();
        json.WriteNumber("price", price.Amount);
        json.WriteString("currency", price.Currency);
        json.WriteEndObject();
    });

    private static void Strings(Utf8JsonWriter json, string name, IEnumerable<string> texts) => KitJson.Array(json, name, texts, static (json, text) => json.WriteStringValue(text));

    private static void Texts(Utf8JsonWriter json, params ReadOnlySpan<(string Name, string Value)> members)
    {
        json.WriteStartObject();
        foreach (var (name, value) in members)
            json.WriteString(name, value);
        json.WriteEndObject();
    }
}
