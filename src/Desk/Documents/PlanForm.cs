using System.Globalization;
using Athwart.Desk.Work;
using Athwart.Jobs;
using Athwart.Jobs.Kits;
using Athwart.Jobs.PlanRig;
using Athwart.Microphones.Equipment;
using Athwart.Quantities;

namespace Athwart.Desk.Documents;

/// <summary>A plan as its page holds it: plain fields, written into the address and read back from it.</summary>
internal sealed record PlanForm
{
    public string Mid { get; init; } = "cardioid";

    public string Side { get; init; } = "figure-8";

    public string Recorder { get; init; } = "";

    public string Protection { get; init; } = "";

    /// <summary>Decibels; null is no side at all.</summary>
    public double? SideLevel { get; init; } = 0;

    public string Title { get; init; } = "";

    public string Place { get; init; } = "";

    public string Date { get; init; } = "";

    public double? Width { get; init; } = 6;

    public double? Distance { get; init; } = 4;

    public double? PathLength { get; init; }

    public double? Quietest { get; init; } = 30;

    public double? Loudest { get; init; } = 90;

    public double? Spacing { get; init; }

    public static PlanForm From(IQueryCollection query)
    {
        ArgumentNullException.ThrowIfNull(query);
        var usual = new PlanForm();
        string Word(string name, string otherwise) => query.TryGetValue(name, out var v) ? v.ToString() : otherwise;
        double? Number(string name, double? otherwise) => !query.TryGetValue(name, out var v) ? otherwise
            : double.TryParse(v, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
        return new()
        {
            Mid = Word("mid", usual.Mid),
            Side = Word("side", usual.Side),
            Recorder = Word("recorder", ""),
            Protection = Word("protection", ""),
            SideLevel = Number("level", usual.SideLevel),
            Title = Word("title", ""),
            Place = Word("place", ""),
            Date = Word("date", ""),
            Width = Number("width", usual.Width),
            Distance = Number("distance", usual.Distance),
            PathLength = Number("path", null),
            Quietest = Number("quietest", usual.Quietest),
            Loudest = Number("loudest", usual.Loudest),
            Spacing = Number("spacing", null),
        };
    }

    /// <summary>The fields as the query of an address.</summary>
    public string Query()
    {
        static string Number(double? value) => value?.ToString("0.####", CultureInfo.InvariantCulture) ?? "none";
        (string, string)[] fields =
        [
            ("mid", Mid), ("side", Side), ("recorder", Recorder), ("protection", Protection), ("level", Number(SideLevel)), ("title", Title), ("place", Place), ("date", Date),
            ("width", Number(Width)), ("distance", Number(Distance)), ("path", Number(PathLength)), ("quietest", Number(Quietest)), ("loudest", Number(Loudest)), ("spacing", Number(Spacing)),
        ];
        return "?" + string.Join('&', fields.Select(f => f.Item1 + "=" + Uri.EscapeDataString(f.Item2)));
    }

    public PlanRigRequest Request(OpenLibrary library)
    {
        ArgumentNullException.ThrowIfNull(library);
        return Request(library.Read(KitStore.Load, new Kit()));
    }

    public PlanRigRequest Request(Kit kit) => new(Wish(), Outing(), kit);

    public Outing Outing()
    {
        if ((Width is not null || PathLength is not null) && Distance is null)
            throw new JobException(JobErrorKind.WrongUse, "The subject's distance is missing.", "Write it in metres.");
        var outing = new Outing { Title = Title, Place = Place, Date = Date, QuietestDecibels = Quietest, LoudestDecibels = Loudest, SourceMetres = Distance };
        if (PathLength is { } path)
            outing = outing with { Path = OutingRules.Path(path, Distance!.Value, fromRight: false, speed: null) };
        else if (Width is { } width)
            outing = outing with { Still = new(width, Distance!.Value) };
        return OutingRules.Checked(Spacing is { } mm ? outing with { Spacing = OutingRules.Spacing(mm) } : outing);
    }

    private RigWish Wish() => new()
    {
        Mid = Mid,
        Side = Side,
        Recorder = Recorder.Length > 0 ? Recorder : null,
        Protection = Protection.Length > 0 ? Protection : null,
        SideLevel = SideLevel is { } level ? new(level) : Decibels.Silence,
    };
}
