using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Metering.Direction;
using Athwart.Metering.Width;
using Athwart.Quantities;
using Athwart.Recordings;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Checks one take in one read: every meter listens to the same blocks.</summary>
internal static class TakeChecker
{
    private const int BlockFrames = 16 * 1024;
    private const int MostTrailColumns = 240;

    /// <summary>Reads the whole take.</summary>
    /// <param name="take">The take, not yet open.</param>
    /// <param name="roles">Which channel is which.</param>
    /// <param name="listening">How it is listened to.</param>
    /// <param name="advanced">Told the frames of each block read.</param>
    /// <param name="cancellation">Ends the reading between blocks.</param>
    public static TakeCheck Check(TakeDescription take, RoleAssignment roles, TakeListening listening, Action<long>? advanced, CancellationToken cancellation)
    {
        using var recording = take.Open();
        var meter = new TakeMeter(take.SampleRateHertz, ScaleOf(take.Format), new MeterSettings { SideGain = listening.SideLevel.AmplitudeRatio, Faults = listening.Disturbances });
        var matcher = roles is { LeftChannel: not null, RightChannel: not null, SideChannel: not null } && take.ChannelCount > 2 ? new DecodedPairMatcher(take.SampleRateHertz) : null;
        var trail = listening.Disturbances && roles.SideChannel is not null ? new DirectionMeter(take.FrameCount, take.SampleRateHertz, MostTrailColumns, listening.MidPattern) : null;
        RoleBlocks.ForEach(recording, roles, BlockFrames, (block, mid, side) =>
        {
            cancellation.ThrowIfCancellationRequested();
            meter.Add(mid, side);
            trail?.Add(mid, side);
            matcher?.Add(mid, side, block.Channel(roles.LeftChannel!.Value), block.Channel(roles.RightChannel!.Value));
            advanced?.Invoke(mid.Length);
        });
        var measures = meter.Complete();
        var match = matcher?.Complete();
        var found = Relevant(TakeDetectors.Find(measures), roles);
        return new()
        {
            Take = take,
            Roles = roles,
            Measures = measures,
            RecordedDecode = match,
            RecordedDecodeOf = match is null ? null : take.Name,
            Direction = trail?.Complete(),
            Width = listening.Disturbances && roles.SideChannel is not null ? WidthAnalysis.Of(measures) : null,
            Rig = listening.Rig,
            Findings = InOrder([.. take.Findings, .. RoleFindings.Of(take, roles, match), .. RoleJudge.Weigh(ProfileFindings.Weigh(found, roles, measures, listening.Rig), roles, listening.Rig)]),
        };
    }

    /// <summary>Worst first, then by place, then by kind: the same order every time.</summary>
    public static IReadOnlyList<Finding> InOrder(IEnumerable<Finding> findings) =>
    [
        .. findings.OrderByDescending(f => f.Severity).ThenBy(f => f.Range?.From.Value ?? -1).ThenBy(f => f.Kind, StringComparer.Ordinal),
    ];

    /// <summary>The scale by which full scale and steps are judged.</summary>
    public static SampleScale ScaleOf(SampleFormat format) =>
        format.IsInteger ? SampleScale.OfBits(format.ValidBits) : SampleScale.FloatingPoint;

    /// <summary>A take without a side has no fault of the side.</summary>
    public static IEnumerable<Finding> Relevant(IReadOnlyList<Finding> findings, RoleAssignment roles) =>
        roles.SideChannel is null ? findings.Where(f => f.Role == ChannelRole.Mid) : findings;
}
