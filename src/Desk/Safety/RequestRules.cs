namespace Athwart.Desk.Safety;

/// <summary>Whether a request may come from where it says it comes.</summary>
/// <param name="hostNames">The names by which this desk may be called.</param>
/// <remarks>
/// A page of another site can make the browser send requests here, and a name of another site can be pointed at
/// 127.0.0.1 (DNS rebinding). Both show in Host, Origin and Sec-Fetch-Site, which no page can forge
/// (Fetch standard, WHATWG, forbidden request headers; see docs/sources.md#desk).
/// </remarks>
internal sealed class RequestRules(IReadOnlySet<string> hostNames)
{
    /// <summary>Why the request is refused; null when it is not.</summary>
    public string? WhyNot(HttpRequest request, int localPort)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (!IsOurs(request.Host, localPort))
            return "The desk was called by a name that is not its own.";
        if (request.Headers.Origin.Count > 0 && !IsOwnOrigin(request))
            return "The request comes from a page of another origin.";
        // Writing and sockets say where they come from; one that does not is no browser's page of ours.
        if ((IsSocket(request) || !IsReading(request)) && request.Headers.Origin.Count == 0)
            return "The request does not say from which page it comes.";
        return IsForeignFetch(request) ? "The request was made by a page of another site." : null;
    }

    private bool IsOurs(HostString host, int localPort) => host.HasValue && hostNames.Contains(host.Host) && (host.Port ?? 80) == localPort;

    private static bool IsOwnOrigin(HttpRequest request) => request.Headers.Origin is [{ } origin]
        && string.Equals(origin, $"{request.Scheme}://{request.Host.Value}", StringComparison.OrdinalIgnoreCase);

    private static bool IsSocket(HttpRequest request) =>
        request.Headers.Upgrade.Count > 0 || string.Equals(request.Method, "CONNECT", StringComparison.OrdinalIgnoreCase);

    private static bool IsReading(HttpRequest request) => HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);

    // Somebody may follow a link to the desk from a note or a mail; that is a navigation of the whole page and shows it only to them.
    private static bool IsForeignFetch(HttpRequest request) => request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site"
        && !(IsReading(request) && request.Headers["Sec-Fetch-Mode"].ToString() is "navigate" && request.Headers["Sec-Fetch-Dest"].ToString() is "document");
}
