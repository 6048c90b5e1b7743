using Athwart.Figures;
using Athwart.Jobs.CheckTakes;
using Athwart.Jobs.Roles;
using Athwart.Jobs.Sessions;
using Athwart.Metering;
using Athwart.Metering.Events;
using Athwart.Metering.Portrait;
using Athwart.Quantities;

namespace Athwart.Jobs.Cut;

/// <summary>Listens to one take once and proposes its cuts.</summary>
internal sealed class TakeCutter(SessionTake take, CutRule rule, double sideGain)
{
    /// <summary>A take that as a whole lies less over its background than a sound must to count is mostly background.</summary>
    public const double BedDecibels = 9;

    private const int BlockFrames = 1 << 15;
    private const int PictureColumns = 900;

    private readonly int _rate = take.Description.SampleRateHertz;
    private readonly long _frames = take.Description.FrameCount;

    // A spoken head is looked for here; what is said later belongs to the take.
    private const int HeadSeconds = 60;

    // From the end of the last word, so that its echo is gone.
    private const double AfterSlateSeconds = 0.25;

    private long _spokenTo;

    /// <summary>How many sounds stood out.</summary>
    public int Found { get; private set; }

    /// <summary>How far the take lies over its floor.</summary>
    public double? OverFloor { get; private set; }

    /// <summary>What is needed for a picture; null unless it was asked for.</summary>
    public TakePortrait? Portrait { get; private set; }

    /// <summary>Listens and proposes, in order of place.</summary>
    public IReadOnlyList<NamedCut> Run(bool portrait, CancellationToken cancellation)
    {
        using var recording = take.Description.Open();
        var (finder, drawn) = (new EventFinder(_rate, sideGain), portrait ? new PortraitMeter(_frames, _rate, (int)Math.Clamp(_frames, 1, PictureColumns), sideGain) : null);
        var head = new TakeMeter(_rate, TakeChecker.ScaleOf(take.Description.Format), new() { SideGain = sideGain, TruePeak = false });
        var heard = 0L;
        RoleBlocks.ForEach(recording, take.Roles, BlockFrames, (_, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            finder.Add(mid, side);
            if (heard < HeadSeconds * _rate)
                head.Add(mid, side);
            heard += mid.Length;
            drawn?.Add(mid, side);
        });
        Portrait = drawn?.Complete();
        _spokenTo = rule.Find.SkipSlate ? SlateEnd(head) : 0;
        var reader = new PairReader(recording, take.Roles);
        var remark = finder.NotFinite > 0 ? FormattableString.Invariant($"{finder.NotFinite} samples of the take are no numbers; they were taken as silence.") : "";
        return [.. Proposals(finder, reader).Select(cut => Finished(cut, reader, remark))];
    }

    /// <summary>The take with its proposals, numbered as in the table, as an SVG file.</summary>
    public static string Picture(string take, TakePortrait portrait, IReadOnlyList<CutProposal> proposals)
    {
        var marks = proposals.Select(p => new TimeMark(p.Number, FindingSeverity.Note, (double)p.FromFrame / p.SampleRateHertz, (double)p.ToFrame / p.SampleRateHertz)).ToList();
        var label = new FigureLabel("cuts", $"Proposed cuts of {take}", string.Join("; ", proposals.Select(p => FormattableString.Invariant($"{p.Number}: {p.Name}, {(double)p.FromFrame / p.SampleRateHertz:0.00} to {(double)p.ToFrame / p.SampleRateHertz:0.00} s"))));
        return StandaloneFigure.Svg(WaveformFigure.Draw(label, portrait.Seconds, Trace(portrait.Mid), Trace(portrait.Side), marks), Palette.Light);

        static WaveformTrace Trace(RoleTrace role) => new(role.Lowest, role.Highest, role.Rms);
    }

    private IEnumerable<NamedCut> Proposals(EventFinder finder, PairReader reader)
    {
        if (_frames == 0)
            return [];
        var find = rule.Find;
        if (find.How == CutHow.Loop)
            return LoopFinding.Find(reader, finder, LoopSettings.For(reader, _spokenTo < _frames ? _spokenTo : 0)) is { } loop ? [Named(loop.Proposal(take.Name, _rate), Label(0, _frames))] : [];
        var scan = finder.Complete(new() { OnsetDecibels = find.OnsetDecibels, JoinSeconds = find.JoinSeconds, SplitsRows = find.Rows, RowSeconds = find.RowSeconds });
        (Found, OverFloor) = (scan.Events.Count, scan.OverFloor.Value);
        var sounds = Sounds(scan);
        var cuts = find.Markers == CutMarkers.Cut ? MarkerCuts(sounds).ToList() : [];
        if (find.How == CutHow.Whole || (find.How == CutHow.Auto && cuts.Count == 0 && (sounds.Count == 0 || OverFloor < BedDecibels)))
            return [Named(Bed(find.How, sounds.Count), Label(0, _frames))];
        return cuts.Concat(EventCuts(sounds, cuts)).OrderBy(c => c.Proposal.FromFrame).ThenBy(c => c.Proposal.ToFrame);
    }

    // What is spoken at the head is no sound of the take; what begins under it begins after it.
    private List<FoundEvent> Sounds(EventScan scan) =>
    [
        .. scan.Events
            .Where(e => e.Range.To.Value > _spokenTo + (AfterSlateSeconds * _rate))
            .Select(e => e.Range.From.Value >= _spokenTo ? e : e with { Range = FrameRange.FromFrames(_spokenTo, e.Range.To.Value) })
            .Where(e => e.Range.Length.Value >= rule.Find.LeastSeconds * _rate),
    ];

    private long SlateEnd(TakeMeter head)
    {
        var slate = TakeDetectors.Find(head.Complete()).FirstOrDefault(f => string.Equals(f.Kind, FindingKinds.VoiceSlate, StringComparison.Ordinal));
        return slate?.Range is { } range ? Math.Min(_frames, range.To.Value + (long)(AfterSlateSeconds * _rate)) : 0;
    }

    private IEnumerable<NamedCut> MarkerCuts(List<FoundEvent> sounds)
    {
        var padded = sounds.Select((_, i) => Padded(sounds, i)).ToList();
        foreach (var (marker, from, to) in MarkerWords.Cuts(take.Description.Markers, padded, _frames, _rate))
            yield return Named(Proposal("marker", from, to), marker.Label);
    }

    // What a marker has cut already is not cut again.
    private IEnumerable<NamedCut> EventCuts(List<FoundEvent> sounds, List<NamedCut> cuts)
    {
        for (var i = 0; i < sounds.Count; i++)
        {
            var (sound, (from, to)) = (sounds[i], Padded(sounds, i));
            if (cuts.Exists(c => c.Proposal.FromFrame < sound.Range.To.Value && c.Proposal.ToFrame > sound.Range.From.Value))
                continue;
            yield return Named(
                Proposal("event", from, to) with { HeightDecibels = Math.Round(sound.Height.Value, 1), LoudestIn = sound.Role.ToString().ToLowerInvariant() },
                Label(sound.Range.From.Value, sound.Range.To.Value));
        }
    }

    // Room before and after, at most to the middle of the pause between two sounds.
    private (long From, long To) Padded(List<FoundEvent> sounds, int i)
    {
        var (from, to) = (sounds[i].Range.From.Value, sounds[i].Range.To.Value);
        var least = i == 0 ? Math.Min(_spokenTo, from) : (sounds[i - 1].Range.To.Value + from) / 2;
        var most = i == sounds.Count - 1 ? _frames : (to + sounds[i + 1].Range.From.Value) / 2;
        return (Math.Max(least, from - (long)(rule.Find.BeforeSeconds * _rate)), Math.Min(most, to + (long)(rule.Find.AfterSeconds * _rate)));
    }

    private CutProposal Bed(CutHow how, int sounds)
    {
        var bed = how == CutHow.Auto;
        var remark = bed && sounds > 0 ? FormattableString.Invariant($"The background is most of this take; {sounds} sounds stand out of it and are cut with \"how\": \"events\".") : "";
        return Proposal(bed ? "bed" : "whole", bed && _spokenTo < _frames ? _spokenTo : 0, _frames) with { Remarks = remark.Length > 0 ? [remark] : [] };
    }

    private CutProposal Proposal(string what, long from, long to) =>
        new() { Take = take.Name, Name = "", What = what, FromFrame = from, ToFrame = to, SampleRateHertz = _rate };

    private string Label(long from, long to) => rule.Find.Markers == CutMarkers.Ignore ? "" : MarkerWords.Label(take.Description.Markers, from, to, _rate);

    private NamedCut Named(CutProposal proposal, string label) => new(proposal, rule.Name, label, take.Description.Production?.Scene ?? "", rule.Find.Order);

    private NamedCut Finished(NamedCut cut, PairReader reader, string remark)
    {
        var (proposal, treat) = (cut.Proposal, rule.Treat);
        if (proposal.CrossfadeFrames == 0)
        {
            var from = SnapPoints.Near(reader, proposal.FromFrame, 0, proposal.ToFrame - 1, treat.Snap);
            var to = SnapPoints.Near(reader, proposal.ToFrame, from + 1, _frames, treat.Snap);
            var (fadeIn, fadeOut) = (Fade(treat.FadeInSeconds, to - from), Fade(treat.FadeOutSeconds, to - from));
            var (start, end) = ClickCheck.Measure(reader, from, to, fadeIn, fadeOut, FadeWords.Parse(treat.FadeCurve), sideGain);
            proposal = proposal with { FromFrame = from, ToFrame = to, FadeInFrames = fadeIn, FadeOutFrames = fadeOut, FadeCurve = treat.FadeCurve, StartJumpDecibels = Rounded(start), EndJumpDecibels = Rounded(end) };
        }

        return cut with
        {
            Proposal = proposal with
            {
                SideLevelDecibels = treat.SideLevelDecibels,
                Treatment = treat.Treatment,
                Tags = rule.Tags,
                Remarks = [.. proposal.Remarks, .. Clicks(proposal), .. remark.Length > 0 ? [remark] : Array.Empty<string>()],
            },
        };
    }

    // Two fades never overlap.
    private long Fade(double seconds, long length) => Math.Min((long)Math.Round(seconds * _rate), length / 2);

    private static double? Rounded(double? decibels) => decibels is { } value ? Math.Round(value, 1) : null;

    private static IEnumerable<string> Clicks(CutProposal proposal)
    {
        if (proposal.StartJumpDecibels > ClickCheck.HeardDecibels)
            yield return "Its start jumps and may click; fade in longer.";
        if (proposal.EndJumpDecibels > ClickCheck.HeardDecibels)
            yield return "Its end jumps and may click; fade out longer.";
    }
}
