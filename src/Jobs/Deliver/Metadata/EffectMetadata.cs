using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Athwart.Jobs.Render;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Recordings;

namespace Athwart.Jobs.Deliver.Metadata;

/// <summary>The metadata that travels with the three files of an effect.</summary>
/// <remarks>Source of the fields: EBU Tech 3285 v2 (bext), the public iXML specification, RIFF (LIST INFO); see docs/sources.md.</remarks>
internal sealed class EffectMetadata
{
    private const int LongestDescription = 256;

    private readonly SessionTake _take;
    private readonly EffectPlan _effect;
    private readonly DeliverRequest _request;

    public EffectMetadata(SessionTake take, EffectPlan effect, DeliverRequest request)
    {
        _take = take;
        _effect = effect;
        _request = request;
    }

    private TakeDescription Take => _take.Description;

    /// <summary>What a file is, in one line: the effect's notes, else its name and take; and whether its side was made up.</summary>
    public string Description(string kind) => TreatmentWords.Labelled(Plain, IsMadeUp(kind));

    private string Plain => _effect.Notes.Length > 0 ? _effect.Notes : $"{_effect.Name} ({_take.Name})";

    /// <summary>The project of the request, else the one the recorder wrote.</summary>
    public string Project => _request.Project ?? Take.Production?.Project ?? "";

    /// <summary>The recordist of the request, else who the recorder says.</summary>
    public string Recordist => _request.Recordist.Length > 0 ? _request.Recordist : Take.Broadcast?.Originator ?? "";

    /// <summary>The bext of one file; the loudness fields follow when they are measured.</summary>
    /// <param name="kind">stereo, midside or mono.</param>
    /// <param name="rate">The rate of the file.</param>
    /// <param name="bits">Bits a sample of the file, such as 24.</param>
    public BroadcastExtension Broadcast(string kind, int rate, int bits)
    {
        var source = Take.Broadcast;
        return new()
        {
            Version = 2,
            Description = TreatmentWords.Labelled(Ascii(Plain, LongestDescription - (IsMadeUp(kind) ? TreatmentWords.Labelled(" ", isMadeUp: true).Length : 0)), IsMadeUp(kind)),
            Originator = Ascii(Recordist.Length > 0 ? Recordist : ProgramName.WithVersion, 32),
            OriginatorReference = Reference(kind),
            OriginationDate = source?.OriginationDate is { Length: > 0 } date ? date : _effect.SessionDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            OriginationTime = source?.OriginationTime is { Length: > 0 } time ? time : "00:00:00",
            TimeReference = TimeReference(rate),
            CodingHistory = CutMetadata.AddToHistory(source?.CodingHistory ?? "", HistoryLine(kind, rate, bits)),
        };
    }

    /// <summary>The time of the cut's first sample, in samples since midnight at the rate of the file.</summary>
    public ulong TimeReference(int rate) => CutMetadata.TimeReference(Take, _effect.From, rate);

    /// <summary>The iXML of one file.</summary>
    public ProductionNotes Production(string kind, int rate, int bits)
    {
        var source = Take.Production;
        return new()
        {
            Project = Project,
            Scene = source?.Scene ?? "",
            Take = source?.Take is { Length: > 0 } take ? take : _take.Name,
            Tape = source?.Tape ?? "",
            Note = Description(kind),
            Circled = source?.Circled ?? false,
            FileUid = Uid(kind),
            Tracks = Tracks(kind),
            Speed = new()
            {
                FileSampleRate = rate,
                AudioBitDepth = bits,
                DigitizerSampleRate = Take.SampleRateHertz,
                TimestampSamplesSinceMidnight = TimeReference(rate),
                TimestampSampleRate = rate,
            },
            History = CutMetadata.History(Take),
        };
    }

    /// <summary>The LIST INFO of one file.</summary>
    public IReadOnlyList<InfoTag> Info(string kind)
    {
        var tags = new List<InfoTag>
        {
            new("INAM", string.Equals(kind, "stereo", StringComparison.Ordinal) ? _effect.Name : $"{_effect.Name} ({kind})"),
            new("ICMT", Description(kind)),
            new("ICRD", Take.Broadcast?.OriginationDate is { Length: > 0 } date ? date : _effect.SessionDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
            new("ISFT", ProgramName.WithVersion),
        };
        Add(tags, "IART", Recordist);
        Add(tags, "IPRD", Project);
        Add(tags, "IKEY", string.Join("; ", _effect.Tags));
        return tags;
    }

    /// <summary>The take's markers that lie inside the cut, at the rate of the file.</summary>
    public IReadOnlyList<Marker> Markers(int rate, string kind) => CutMetadata.Markers(
        Take.Markers, _effect.From, _effect.To, Take.SampleRateHertz, rate, string.Equals(kind, "midside", StringComparison.Ordinal) ? 1 : TreatedChain.Stretch(_effect.Treated?.Steps));

    // The raw pair is as it was recorded, and the mono is the mid.
    private bool IsMadeUp(string kind) => string.Equals(kind, "stereo", StringComparison.Ordinal) && _effect.Treated?.MakesSide is true;

    private static void Add(List<InfoTag> tags, string id, string text)
    {
        if (text.Length > 0)
            tags.Add(new(id, text));
    }

    private static IReadOnlyList<Track> Tracks(string kind) => kind switch
    {
        "stereo" => CutMetadata.Stereo,
        "mono" => CutMetadata.Mid,
        _ => CutMetadata.RawPair,
    };

    // R 98 has no word for mid/side in M=, so the text field says it.
    private string HistoryLine(string kind, int rate, int bits)
    {
        var text = kind switch
        {
            "stereo" => string.Create(CultureInfo.InvariantCulture, $"{ProgramName.WithVersion} {Treated}MS decode side {SideLevelText()}"),
            "mono" => $"{ProgramName.WithVersion} {Treated}mid of MS",
            _ => ProgramName.WithVersion + " MS raw pair cut",
        };
        var mode = kind switch { "mono" => "mono", "stereo" => "stereo", _ => "dual-mono" };
        return string.Create(CultureInfo.InvariantCulture, $"A=PCM,F={rate},W={bits},M={mode},T={text}");
    }

    private string Treated => TreatmentWords.ForHistory(_effect.Treated?.Name, _effect.Treated?.Steps);

    private string SideLevelText() => double.IsNegativeInfinity(_effect.SideLevel.Value)
        ? "-inf dB"
        : string.Create(CultureInfo.InvariantCulture, $"{_effect.SideLevel.Value:0.00} dB");

    private string Reference(string kind) => Uid(kind)[..32];

    // The same cut of the same original gives the same identity, so that a rendering repeated is the same file.
    private string Uid(string kind) => "ATHWART" + Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(
        string.Create(CultureInfo.InvariantCulture, $"{_effect.SourceSha256}|{_effect.From}|{_effect.To}|{kind}|{_effect.SideLevel.Value:R}{StepsText}"))))[..32];

    private string StepsText => string.Concat((_effect.Treated?.Steps ?? []).Select(s => "|" + s));

    // bext is ASCII; what it cannot hold stays whole in iXML and is a question mark here.
    private static string Ascii(string text, int bytes)
    {
        var plain = new string([.. text.EnumerateRunes().Select(r => r.Value is >= ' ' and < 0x7F ? (char)r.Value : '?')]);
        return plain.Length <= bytes ? plain : plain[..bytes];
    }
}
