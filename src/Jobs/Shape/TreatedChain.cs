using Athwart.Metering;
using Athwart.Quantities;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>A take and its steps as one stream: runs of stages, parted by changes of speed.</summary>
internal sealed class TreatedChain
{
    private readonly List<TakePair> _takes = [];
    private readonly Func<TakePair> _open;
    private readonly IReadOnlyList<TreatmentStep> _steps;
    private readonly StepPlace _place;
    private readonly long _anchor;

    /// <param name="open">Opens the take.</param>
    /// <param name="steps">What is done.</param>
    /// <param name="place">Where.</param>
    /// <param name="anchor">The first frame that is wanted, which a change of speed leaves in its place.</param>
    /// <param name="length">How many frames of the take are played from there.</param>
    public TreatedChain(Func<TakePair> open, IReadOnlyList<TreatmentStep> steps, StepPlace place, long anchor, long length)
    {
        (_open, _steps, _place, _anchor) = (open, steps, place, anchor);
        Pair = Build(steps.Count, length);
        Length = LengthAfter(steps, length);
    }

    /// <summary>The stages after the last change of speed, over all that goes before.</summary>
    public TreatedPair Pair { get; }

    /// <summary>How many frames come out.</summary>
    public long Length { get; }

    /// <summary>Frames that come out of steps for so many that go in.</summary>
    public static long LengthAfter(IReadOnlyList<TreatmentStep> steps, long length) =>
        steps.Select(s => s.Settings).OfType<Speed>().Aggregate(length, (frames, speed) => speed.OutputLength(frames));

    /// <summary>How much longer steps make both roles: 2 at half the speed; 1 where one role alone is played at another speed.</summary>
    public static double Stretch(IReadOnlyList<TreatmentStep>? steps) =>
        (steps ?? []).Select(s => s.Settings).OfType<Speed>().Where(s => s.Roles == PairRoles.Both).Aggregate(1.0, (stretch, speed) => stretch / speed.Ratio);

    /// <summary>What the recordist should know of the samples that were read.</summary>
    public IReadOnlyList<Finding> Findings => _takes.MaxBy(t => t.NotFinite) is not { NotFinite: > 0 } take ? [] :
    [
        new()
        {
            Kind = FindingKinds.NotFinite,
            Severity = FindingSeverity.Fault,
            Message = FormattableString.Invariant($"{take.NotFinite} samples are infinite or not numbers, the first at frame {take.FirstNotFinite}; the steps took them as silence."),
            Remedy = "Listen there, and copy the recording again if the recorder's card is not the cause.",
            Range = FrameRange.FromFrames(take.FirstNotFinite, take.FirstNotFinite + 1),
            Size = take.NotFinite,
            SizeUnit = "samples",
        },
    ];

    private TreatedPair Build(int count, long length)
    {
        var last = count - 1;
        while (last >= 0 && _steps[last].Settings is not Speed)
            last--;
        var place = last < 0 ? _place : _place with { Frames = _anchor + LengthAfter([.. _steps.Take(last + 1)], length) };
        var stages = _steps.Take(count).Skip(last + 1).Select(s => StepStages.Make(s, place)).ToList();
        return new(last < 0 ? Open() : new SpeedStream(() => Build(last, length), (Speed)_steps[last].Settings, _anchor, LengthAfter([.. _steps.Take(last)], length)), stages);
    }

    private TakePair Open()
    {
        var take = _open();
        _takes.Add(take);
        return take;
    }
}
