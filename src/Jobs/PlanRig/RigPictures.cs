namespace Athwart.Jobs.PlanRig;

/// <summary>The pictures of a plan.</summary>
internal static class RigPictures
{
    public static IReadOnlyList<PictureSection> All { get; } = [];

    public static string FromAbove(RigPlan plan, string id) => "";

    public static string TradeOffs(ChoiceDocument document, string id) => "";
}

/// <summary>One kind of picture.</summary>
internal sealed record PictureSection(string Id, string Heading, string Say, Func<RigPlan, string, string> Draw);
