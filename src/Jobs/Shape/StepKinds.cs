using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>Every kind of step there is.</summary>
public static class StepKinds
{
    private static readonly StepSettingsJson Json = StepSettingsJson.Default;

    /// <summary>The kinds, in the order a treatment mostly has them.</summary>
    public static IReadOnlyList<StepKind> All { get; } =
    [
        new StepKind<Swap>("swap", "Mid becomes side and side becomes mid.", Json.Swap, static _ => PairRoles.Both, static (_, _) => new SwapStage()),
        new StepKind<Invert>("invert", "Turns the polarity over; of the side, it exchanges left and right.", Json.Invert, static s => s.Roles, static (s, _) => new InvertStage(s)),
        new StepKind<Trim>("trim", "Raises or lowers by a fixed number of decibels.", Json.Trim, static s => s.Roles, static (s, _) => new TrimStage(s)),
        new StepKind<Delay>("delay", "Moves a role in time, by parts of a frame too.", Json.Delay, static s => s.Roles, static (s, p) => new DelayStage(s, p.SampleRateHertz)),
        new StepKind<LowCut>("low-cut", "Takes away what lies below a frequency.", Json.LowCut, static s => s.Roles, static (s, p) => new LowCutStage(s, p.SampleRateHertz)),
        new StepKind<HighCut>("high-cut", "Takes away what lies above a frequency.", Json.HighCut, static s => s.Roles, static (s, p) => new HighCutStage(s, p.SampleRateHertz)),
        new StepKind<Bell>("bell", "Raises or lowers a band around a frequency.", Json.Bell, static s => s.Roles, static (s, p) => new BellStage(s, p.SampleRateHertz)),
        new StepKind<LowShelf>("low-shelf", "Raises or lowers everything below a frequency.", Json.LowShelf, static s => s.Roles, static (s, p) => new LowShelfStage(s, p.SampleRateHertz)),
        new StepKind<HighShelf>("high-shelf", "Raises or lowers everything above a frequency.", Json.HighShelf, static s => s.Roles, static (s, p) => new HighShelfStage(s, p.SampleRateHertz)),
        new StepKind<ResponseMatch>("response-match", "Corrects a role's response by third octaves, such as the side's to the mid's.", Json.ResponseMatch, static s => s.Roles, static (s, p) => new ResponseMatchStage(s, p.SampleRateHertz)),
        new StepKind<RigMatch>("rig-match", "Corrects the side's response to the mid's as the line-up of the rig measured it.", Json.RigMatch, static _ => PairRoles.Side, static (_, _) => throw new InvalidOperationException("A match to the rig is settled before it works.")) { NeedsRig = true, FollowsSound = true },
        new StepKind<HumCut>("hum-cut", "Takes away the mains hum and its multiples, however the mains drifts.", Json.HumCut, static s => s.Roles, static (s, p) => new HumCutStage(s, p.SampleRateHertz)) { FollowsSound = true },
        new StepKind<Repair>("repair", "Fills clicks and short gaps with what the sound around them foretells.", Json.Repair, static s => s.Roles, static (s, p) => new RepairStage(s, p.SampleRateHertz, p.Frames)) { FollowsSound = true },
        new StepKind<WindReduction>("wind-reduction", "While wind lasts, the low end of the side gives way to what the mid supports.", Json.WindReduction, static _ => PairRoles.Side, static (s, p) => new WindReductionStage(s, p.SampleRateHertz)) { FollowsSound = true },
        new StepKind<WidthCurve>("width-curve", "The side's gain over frequency, point by point.", Json.WidthCurve, static _ => PairRoles.Side, static (s, p) => new WidthCurveStage(s, p.SampleRateHertz)),
        new StepKind<Shuffler>("shuffler", "Widens the low end, where two ears hear width last.", Json.Shuffler, static s => s.Law == ShufflerLaw.SideOnly ? PairRoles.Side : PairRoles.Both, static (s, p) => new ShufflerStage(s, p.SampleRateHertz)),
        new StepKind<MonoBelow>("mono-below", "Nothing of the side is left below a frequency.", Json.MonoBelow, static _ => PairRoles.Side, static (s, p) => new MonoBelowStage(s, p.SampleRateHertz)),
        new StepKind<Balance>("balance", "Turns the image a little to the left or to the right.", Json.Balance, static s => s.Method == BalanceMethod.Steer ? PairRoles.Side : PairRoles.Both, static (s, _) => new BalanceStage(s)),
        new StepKind<WidthOverTime>("width-over-time", "The side's gain goes from point to point while the sound plays.", Json.WidthOverTime, static _ => PairRoles.Side, static (s, _) => new WidthOverTimeStage(s)) { FollowsSound = true },
        new StepKind<SideAlone>("side-alone", "The side takes the place of the mid, as a texture of its own.", Json.SideAlone, static _ => PairRoles.Both, static (s, _) => new SideAloneStage(s)),
        new StepKind<MadeUpSide>("made-up-side", "Gives a take a side that was never recorded: made from the mid, gone again in mono.", Json.MadeUpSide, static _ => PairRoles.Side, static (s, p) => new MadeUpSideStage(s, p.SampleRateHertz)) { MakesSide = true },
        new StepKind<TransientBalance>("transient-balance", "Raises or lowers what strikes and what sounds on, each by itself.", Json.TransientBalance, static s => s.Roles, static (s, p) => new TransientBalanceStage(s, p.SampleRateHertz)) { FollowsSound = true },
        new StepKind<WidthFollows>("width-follows", "The side's gain follows the level, the brightness or the pitch of the sound.", Json.WidthFollows, static _ => PairRoles.Side, static (s, p) => new WidthFollowsStage(s, p.SampleRateHertz)) { FollowsSound = true },
        new StepKind<Speed>("speed", "Plays slower or faster, pitch and time together.", Json.Speed, static s => s.Roles, static (_, _) => throw new InvalidOperationException("A change of speed is no stage.")) { FollowsSound = true },
        new StepKind<MonoGuard>("mono-guard", "Turns the side down where left and right would cancel in mono.", Json.MonoGuard, static _ => PairRoles.Side, static (s, p) => new MonoGuardStage(s, p.SampleRateHertz, p.SideGain)) { IsGuard = true, FollowsSound = true },
    ];

    /// <summary>The kind of this name, or null.</summary>
    public static StepKind? Find(string? name) => All.FirstOrDefault(k => string.Equals(k.Name, name, StringComparison.Ordinal));
}
